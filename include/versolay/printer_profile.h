// The printer profile: what is known of the registration of one printer, set up one way.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "versolay/paper.h"
#include "versolay/registration.h"
#include "versolay/result.h"
#include "versolay/sheet_readings.h"
#include "versolay/study_results.h"

namespace versolay {

struct ProfileSession {
  std::string source;   // the readings file it came from (its name, without folders)
  std::string created;  // ISO 8601, UTC
  int n_feeds = 0;
};

/// One sheet as it was read: kept in the profile, so that it can be judged again with later ones.
struct ProfileFeed {
  int session = 0;  // index into PrinterProfile::sessions
  int sheet = 0;
  std::string run;
  Registration registration;
  RegistrationModel model = RegistrationModel::rigid;
  bool fed_round = false;  // printed rotated by 180 degrees; in the frame of the printer
  /// Why it is not part of the estimate: by_user, misfeed or in_doubt; nullopt: it is.
  std::optional<Finding> left_out;
  double robust_distance = 0.0;  // from the middle of the feeds, in standard deviations, all
                                 // components together; 0: not stated
  PrintedScale printed_scale;    // of the front; empty where it is not known
  /// Codes of what puts its reading in doubt (core/doubt.h); empty: nothing.
  std::vector<std::string> doubts = {};
  /// Sheets that were fed several times a side: which pass of both sides this is, and how these lie
  /// against the first pass, each in the view of its own side.
  int pass = 1;
  Registration recto_pass_lay = {};
  Registration verso_pass_lay = {};
  /// How the front lies on the paper, where its edges were read; of a further pass, that of the
  /// first one.
  std::optional<PrintLay> recto_lay = {};
};

/// Where the spread of sheets that were fed several times comes from; in the verso view.
struct PassComponents {
  int sheets = 0;
  double passes = 1.0;  // of a sheet on each side, harmonic mean
  RegistrationMatrix front_covariance = RegistrationMatrix::Zero();  // from pass to pass
  RegistrationMatrix back_covariance = RegistrationMatrix::Zero();
  RegistrationMatrix sheet_covariance = RegistrationMatrix::Zero();  // beyond the passes
  double sheets_differ_p = 1.0;  // chance of such sheets if they differed by their passes alone
  double drift_p = 1.0;          // chance of such a trend over the passes if there were none
};

/// Standard deviations of one component, by where they come from.
struct ComponentShare {
  std::string component;           // a key of kRegistrationKeys
  double session_sd = 0.0;         // between sessions; 0 where it is not seen
  double session_sd_high = 0.0;    // upper 95 % confidence limit
  double feed_sd = 0.0;            // from feed to feed, the measurement taken out
  double measurement_sd = 0.0;     // of one reading
  double measurement_share = 0.0;  // of the variance seen from feed to feed, 0..1 (or above)
};

/// What the registration does not describe and all sheets share, at one hole.
struct FieldPoint {
  std::string id;
  Point<VersoMm> at;
  Eigen::Vector2d residual_mm{0.0, 0.0};  // mean over the sheets: e minus the registration
  double sd_mm = 0.0;                     // of that mean, one axis
  int n = 0;                              // sheets
};

/// Residual field beyond the affine part, such as the jump when the sheet leaves the feed rollers.
struct ResidualField {
  std::vector<FieldPoint> points;  // empty: fewer than 8 holes, nothing is known
  bool real = false;               // luck does not explain it
  double p_value = 1.0;
  double amplitude_mm = 0.0;  // sd of the field between the holes ...
  double length_mm = 0.0;     // ... and how far it reaches (an assumption, not an estimate)
};

/// Something that was done to the profile.
struct ProfileEvent {
  std::string date;  // ISO 8601, UTC
  Finding what;
};

/// A feed that was left out of the estimate, and why. Never silent.
struct ExcludedFeed {
  std::string source;
  int sheet = 0;
  Finding why;
};

/// A test that was made on the readings.
struct ProfileTest {
  std::string name;  // "constant part (Hotelling T2)"
  double statistic = 0.0;
  double p_value = 1.0;
  Finding conclusion;
};

/// The user's own words for the set-up.
struct ProfileLabels {
  std::string printer;
  std::string feed;
  std::string stock;
  std::string quality;
};

struct PrinterProfile {
  std::string printer;
  std::string feed;  // paper path and guides, the user's words
  std::string stock;
  std::string quality;
  Turn turn = Turn::long_edge;
  Paper paper;
  RegistrationModel model = RegistrationModel::rigid;  // the components that were estimated; the
                                                       // others are 0 without any variance
  int n_feeds = 0;                                     // feeds used; every pass counts
  int n_sheets = 0;                                    // sheets read, excluded ones too
  std::vector<ProfileSession> sessions;
  Registration mean;   // the constant part
  int mean_feeds = 0;  // feeds behind the mean: n_feeds, or those of the newest session when the
                       // sessions disagree; with passes, the plain feeds that it is worth
  RegistrationMatrix mean_covariance = RegistrationMatrix::Zero();    // of the mean
  RegistrationMatrix spread_covariance = RegistrationMatrix::Zero();  // feed to feed, as observed,
                                                                      // measuring error included
  int spread_dof = 0;  // f: the sum of n_b - 1 over the sessions, fewer with passes; 0: the spread
                       // is not known
  RegistrationMatrix measurement_covariance = RegistrationMatrix::Zero();  // of one reading
  double measurement_dof = 0.0;  // how well that is known; 0: not stated
  /// Sessions that differ and are at least 4: the promises are about further sessions, the mean is
  /// that of the session means, and this is the covariance of these means (0: not so).
  RegistrationMatrix session_covariance = RegistrationMatrix::Zero();
  double feeds_per_session = 0.0;
  std::vector<ComponentShare> shares;
  std::vector<ProfileFeed> feeds;
  /// With the feeds that were left out automatically put back; 0 where none was.
  RegistrationMatrix spread_with_left_out = RegistrationMatrix::Zero();
  bool rotation_measured = true;  // false: values without rotation, which is 0 without any variance
  bool heavy_tails = false;       // the feeds do not look normal
  double robust_limit = 0.0;      // of ProfileFeed::robust_distance, passed by chance in 1 % of the
                                  // profiles; 0: not stated
  std::optional<PassComponents> passes;  // nullopt: every sheet was fed once a side
  ResidualField field;
  std::vector<ProfileEvent> history;
  bool constant_part_real = true;  // the test says that the mean is not zero
  std::vector<ProfileTest> tests;
  Studies studies;  // of the readings; not kept when the profile is estimated again without them
  std::vector<ExcludedFeed> excluded;
  Notices warnings;
  std::string created;   // ISO 8601, UTC
  std::string software;  // "versolay 0.1.0"
};

}  // namespace versolay
