// What one scan shows of one side of one sheet.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "measure/edge.h"
#include "measure/hole.h"
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
  double radius_mm = 0.0;  // holes
};

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

struct SideReading {
  PageIdentity identity;
  std::string scan_name;
  Affine<PageMm, ScanPx> page_from_scan;  // global fit: for the picture, not for the reading
  double page_rms_mm = 0.0;               // what the global fit leaves: the scanner, mostly
  int rings_expected = 0;
  int rings_found = 0;
  std::vector<RingUse> rings;  // those seen
  std::vector<SideFeature> features;
  Eigen::MatrixXd covariance_mm2;  // 2n x 2n: x, y of the first feature, of the second, ...
  std::vector<SideMiss> misses;
  PrintedScale printed_scale;
  Notices warnings;
};

/// Finds and identifies the marks of a scan, and reads its holes and the edges of its paper.
/// @return a refusal with one of the codes no_marks, mixed_marks, identity_unreadable,
///         too_few_marks.
Result<SideReading> read_side(const Scan& scan);

}  // namespace versolay
