// What one scan shows of one side of one sheet.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "measure/camera_map.h"
#include "measure/edge.h"
#include "measure/hole.h"
#include "measure/print_errors.h"
#include "scan/scan.h"
#include "versolay/readings.h"
#include "versolay/target.h"

namespace versolay {

enum class FeatureKind { punch, prick, edge };

/// A feature of the paper itself, in the frame of the page that is printed on this side.
struct SideFeature {
  std::string id;  // of the place in the target's geometry: the same on both sides
  FeatureKind kind = FeatureKind::punch;
  Point<PageMm> at;
  Eigen::Vector2d normal{0.0, 0.0};  // edges: outward, unit; only the place along it is known
  Point<ScanPx> seen;
  double radius_mm = 0.0;    // holes
  double paper_sd_mm = 0.0;  // own error, one axis, that every scan of this side repeats: a rough
                             // rim, the lean of a pin, the cut of an edge
  PrintErrors print;         // around it, as this scan shows them; repeated by every scan
};

/// Joint covariance, 2n x 2n, of the errors that every scan of a side repeats and that no number of
/// scans averages away: those of the features themselves, and of the print around them.
Eigen::MatrixXd repeated_covariance_mm2(const std::vector<SideFeature>& features);

/// A place where something is, that could not be read.
struct SideMiss {
  std::string id;
  std::variant<HoleMiss, EdgeMiss> miss;
};

/// A ring that was seen, and whether it agreed with the others.
struct RingUse {
  Point<ScanPx> seen;
  Point<PageMm> page;  // its nominal place
  bool used = true;
};

/// One scan. It may show a part of the page only: half of an A3 sheet on an A4 bed.
///
/// Error of the features = error of this scan (scan_covariance_mm2, another in every scan)
///                       + ring_response * errors of the printed rings (ring_sd_mm, one axis each)
///                       + error of features and print (repeated_covariance_mm2).
struct SideReading {
  PageIdentity identity;
  /// Production sheets: what the back was printed with. nullopt: a target.
  std::optional<Registration> correction;
  TargetGeometry geometry;  // places of everything on this kind of page
  std::string scan_name;
  Affine<PageMm, ScanPx> page_from_scan;  // global fit: for the picture, not for the reading
  std::optional<CameraMap> camera;        // of a photograph; then it, and not the global fit, holds
  double page_rms_mm = 0.0;               // what the global fit leaves: the scanner, mostly
  int rings_expected = 0;                 // in the part of the page that the picture shows
  int rings_found = 0;
  std::vector<RingUse> rings;                // those seen
  std::vector<Point<PageMm>> rings_outside;  // nominal places that the picture does not show
  std::vector<SideFeature> features;
  Eigen::MatrixXd scan_covariance_mm2;  // 2n x 2n: x, y of the first feature, of the second, ...
  Eigen::MatrixXd ring_response;        // 2n x 2r, rings in the order of `rings`
  double ring_sd_mm = 0.0;
  std::vector<SideMiss> misses;
  PrintedScale printed_scale;
  Notices warnings;
};

/// Finds and identifies the marks of a scan, and reads its holes and the edges of its paper, as far
/// as the picture shows them: two tags and half of the rings in that part are asked for.
/// @return a refusal with one of the codes no_marks, mixed_marks, identity_unreadable,
///         too_few_marks, or those of check_photograph().
Result<SideReading> read_side(const Scan& scan);

}  // namespace versolay
