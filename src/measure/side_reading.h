// What one scan shows of one side of one sheet.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "measure/camera_map.h"
#include "measure/feature_places.h"
#include "scan/scan.h"
#include "target/target_geometry.h"
#include "versolay/sheet_readings.h"

namespace versolay {

/// A ring that was seen, and whether it agreed with the others.
struct RingUse {
  Point<ScanPx> seen;
  Point<PageMm> page;  // its nominal place
  bool used = true;
};

/// One scan. It may show a part of the page only: half of an A3 sheet on an A4 bed.
struct SideReading {
  PageIdentity identity;
  /// Production sheets: what the back was printed with. nullopt: a target.
  std::optional<Registration> correction;
  TargetGeometry geometry;  // places of everything on this kind of page
  std::string scan_name;
  Affine<PageMm, ScanPx> page_from_scan;  // global fit: for the picture, not for the reading
  std::optional<CameraMap> camera;        // of a photograph, instead of the global fit
  double page_rms_mm = 0.0;               // what the global fit leaves: the scanner, mostly
  int rings_expected = 0;                 // in the part of the page that the picture shows
  int rings_found = 0;
  std::vector<RingUse> rings;                // those seen
  std::vector<Point<PageMm>> rings_outside;  // nominal places that the picture does not show
  FeaturePlaces places;                      // the columns of its response: as `rings`
  FeaturePlaces pass_places;                 // rings of further passes, in the page of the first
  std::vector<SideMiss> misses;
  PrintedScale printed_scale;
  Notices warnings;
};

/// Finds and identifies the marks of a scan, and reads its holes and the edges of its paper, as far
/// as the picture shows them. It takes two tags, one readable code and half of the rings in that
/// part of the page.
/// @return a refusal with one of the codes mixed_marks, identity_unreadable, too_few_marks, or
///         those of why_no_target() and check_photograph().
Result<SideReading> read_side(const Scan& scan);

}  // namespace versolay
