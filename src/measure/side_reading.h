// What one scan shows of one side of one sheet.
#pragma once

#include <string>
#include <vector>

#include "measure/hole.h"
#include "scan/scan.h"
#include "versolay/readings.h"
#include "versolay/target.h"

namespace versolay {

/// A hole, in the frame of the page that is printed on this side.
struct SideHole {
  std::string id;
  HoleKind kind = HoleKind::punch;
  Point<PageMm> at;
  HoleSighting sighting;
};

/// A hole place that was not read although something is there.
struct SideHoleMiss {
  std::string id;
  HoleMiss miss = HoleMiss::none_made;
};

struct SideReading {
  PageIdentity identity;
  std::string scan_name;
  Affine<PageMm, ScanPx> page_from_scan;  // global fit: for the picture, not for the reading
  double page_rms_mm = 0.0;               // what the global fit leaves: the scanner, mostly
  int rings_expected = 0;
  int rings_found = 0;
  std::vector<Point<ScanPx>> rings;  // those used
  std::vector<Point<ScanPx>> rings_left_out;
  std::vector<SideHole> holes;
  Eigen::MatrixXd hole_covariance_mm2;  // 2n x 2n: x, y of the first hole, of the second, ...
  std::vector<SideHoleMiss> misses;
  PrintedScale printed_scale;
  Notices warnings;
};

/// Finds and identifies the marks of a scan and reads its holes.
/// @return a refusal with one of the codes no_marks, mixed_marks, identity_unreadable,
///         too_few_marks.
Result<SideReading> read_side(const Scan& scan);

}  // namespace versolay
