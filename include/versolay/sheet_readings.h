// What `measure` (or a pair of eyes) found on a set of sheets: the file readings.json.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "versolay/paper.h"
#include "versolay/registration.h"
#include "versolay/result.h"

namespace versolay {

/// The reading of one physical feature that exists on both sides (a hole), in the verso view.
struct FeatureReading {
  std::string id;
  Point<VersoMm> at;                      // where it is on the verso page, mm
  Eigen::Vector2d e_mm{0.0, 0.0};         // M x_recto - x_verso
  double sd_mm = 0.0;                     // one axis, one sigma, of e
  Eigen::Vector2d residual_mm{0.0, 0.0};  // e minus the fitted registration at that place
  /// Edges of the paper: only the displacement across the edge is known; e and the residual are
  /// along this unit vector. Holes: none.
  std::optional<Eigen::Vector2d> normal = std::nullopt;
};

/// Scale of the print relative to the nominal page, by the scanner's own resolution
/// (1 = 100 %); nullopt when the image carries no resolution that can be believed.
struct PrintedScale {
  std::optional<double> x;
  std::optional<double> y;
};

enum class RegistrationModel { rigid, similarity, affine };  // 3, 4 or 6 free parameters
std::string_view to_string(RegistrationModel model);         // "rigid", "similarity", "affine"
std::optional<RegistrationModel> registration_model_from(std::string_view text);

/// How a print lies on its paper, from the paper's edges; in the view of its own side.
struct PrintLay {
  double dx_mm = 0.0;           // > 0: right of the middle of the sheet
  double dy_mm = 0.0;           // > 0: below it
  double rotation_mrad = 0.0;   // > 0: clockwise
  double paper_width_mm = 0.0;  // measured in mm of the print
  double paper_height_mm = 0.0;
  Eigen::Matrix3d covariance = Eigen::Matrix3d::Zero();  // of dx mm, dy mm, rotation mrad
};

/// How a further pass through the printer lies on the first one of the same side, in the view of
/// that side: its point p is printed where the first pass has p + e(p).
struct PassLay {
  int pass = 2;
  Registration lay;
  RegistrationMatrix covariance = RegistrationMatrix::Zero();  // units of vec()^2
};

/// Half of the mean displacement between the pricks before and after the sheet was rotated by 180
/// degrees.
struct PrickLean {
  Eigen::Vector2d lean_mm{0.0, 0.0};
  double sd_mm = 0.0;
};

/// What a sheet was read by. Read by eye: by nothing else.
struct Datums {
  bool punched = false;
  bool pricked = false;
  bool edges = false;
  bool by_eye = false;
  bool operator==(const Datums&) const = default;
};
/// As in files: "punched holes", "punched and pricked holes and paper edges", "by eye"; "" for
/// none.
std::string to_string(const Datums& datums);
Datums datums_from(std::string_view text);

struct SheetReading {
  int sheet = 0;    // number printed and coded on the sheet
  std::string run;  // code of the print run of the target ("" when read by eye)
  /// Production sheets, read by the marks in their waste: what the artwork of the back, and these
  /// marks with it, was put through before it was printed. `registration` is then what is left of
  /// the printer's error. nullopt: a target, or another sheet without a correction.
  std::optional<Registration> correction;
  Registration registration;
  RegistrationMatrix covariance = RegistrationMatrix::Zero();  // of the reading; units of vec()^2
  RegistrationModel model = RegistrationModel::similarity;
  Datums datum;
  Notices datum_notes;  // why this datum; may be empty
  std::vector<FeatureReading> features;
  double residual_rms_mm = 0.0;
  PrintedScale recto;
  PrintedScale verso;
  std::optional<PrintLay> recto_lay;
  std::optional<PrintLay> verso_lay;
  /// Sheets that were fed several times: the passes from the second on. `registration` and all else
  /// is that of the first pass of both sides.
  std::vector<PassLay> recto_passes;
  std::vector<PassLay> verso_passes;
  std::optional<PrickLean> lean;
  /// From one scan of each side at a time, where each was scanned several times; else empty.
  std::vector<Registration> repeats;
  /// Both pages were printed rotated by 180 degrees. Everything above is in the
  /// frame of the printer, as for a sheet that was not.
  bool fed_round = false;
  bool photographed = false;       // one picture at least was taken with a camera
  std::vector<std::string> files;  // the scans that went into it
  Notices warnings;
  /// Not so for values that came without a rotation: it is 0 because nobody measured it.
  bool rotation_measured() const;
};

/// The reading as it would be of a sheet that was printed without its correction: what the printer
/// did. With S the measured map and C the correction, the artwork's point p was printed at C(p) and
/// landed at S(p): the printer's own map is S C^-1. Covariance and features go along. A reading
/// without a correction is returned as it is.
SheetReading without_correction(SheetReading sheet);

/// A scan, or all the scans of a sheet, that could not be used, and why.
struct RejectedInput {
  std::vector<std::string> files;
  std::optional<int> sheet;  // nullopt: it is not known which
  Finding why;
};

struct Readings {
  Turn turn = Turn::long_edge;
  Paper paper;
  std::vector<SheetReading> sheets;
  std::vector<RejectedInput> rejected;
  std::string created;  // ISO 8601, UTC
};

}  // namespace versolay
