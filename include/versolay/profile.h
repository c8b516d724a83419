// The printer profile: what is known of the registration of one printer, set up one way.
#pragma once

#include <string>
#include <vector>

#include "versolay/paper.h"
#include "versolay/readings.h"
#include "versolay/registration.h"
#include "versolay/result.h"

namespace versolay {

struct ProfileSession {
  std::string source;   // the readings file it came from (its name, without folders)
  std::string created;  // ISO 8601, UTC
  int n_feeds = 0;
};

/// A feed that was left out of the estimate, and why. Never silent.
struct ExcludedFeed {
  std::string source;
  int sheet = 0;
  std::string why;
};

/// A test that was made on the readings, in words and numbers.
struct ProfileTest {
  std::string name;  // "constant part (Hotelling T2)"
  double statistic = 0.0;
  double p_value = 1.0;
  std::string conclusion;  // one plain sentence
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
  int n_feeds = 0;                                     // independent feeds used
  int n_sheets = 0;                                    // sheets read, excluded ones too
  std::vector<ProfileSession> sessions;
  Registration mean;   // the constant part
  int mean_feeds = 0;  // feeds behind the mean: n_feeds, or those of the newest session when the
                       // sessions disagree
  RegistrationMatrix mean_covariance = RegistrationMatrix::Zero();    // of the mean
  RegistrationMatrix spread_covariance = RegistrationMatrix::Zero();  // feed to feed, as observed,
                                                                      // measuring error included
  int spread_dof = 0;  // f: the sum of n_b - 1 over the sessions; 0: the spread is not known
  RegistrationMatrix measurement_covariance = RegistrationMatrix::Zero();  // of one reading
  bool constant_part_real = true;  // the test says that the mean is not zero
  std::vector<ProfileTest> tests;
  std::vector<ExcludedFeed> excluded;
  Notices warnings;
  std::string created;   // ISO 8601, UTC
  std::string software;  // "versolay 0.1.0"
};

}  // namespace versolay
