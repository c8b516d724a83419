// Sub-pixel position of the paper's edge, seen against black card.
//
// Accuracy: a registration from edges alone is off by 11, 14 um rms (across, along the feed), and
// by 13, 16 um where they are cut roughly (15 um, with a bevel of 8 um). One scan a side at 150
// dpi, paper of 200 x 220 mm, 200 sheets of the second simulator (tests/bench/README.md).
#pragma once

#include <variant>

#include "measure/sampler.h"
#include "versolay/frames.h"

namespace versolay {

struct EdgeSighting {
  Point<ScanPx> at;    // on the edge, straight outward of the ring
  double sd_mm = 0.0;  // along the normal, from the scatter of the edge over a centimetre
};

/// Why an edge was not read.
enum class EdgeMiss {
  outside,        // this stretch of the sheet is not in the picture
  cut_off,        // the picture ends within 1 mm of the edge, or before it
  poor_contrast,  // white lid, or no background beyond the paper
  ragged,         // torn, folded or in shadow
};

/// Looks outward from a ring for the place where the paper ends. The edge is read along lines over
/// 5 mm to both sides of the ring and its place is that of a robust straight line through them.
/// @param ring              centre of the ring, page mm.
/// @param outward           unit vector towards the edge, along an axis of the page.
/// @param clear_mm          from the ring's centre: beyond it is plain paper, up to the edge.
/// @param expected_mm       distance of the nominal edge from the ring's centre.
/// @param reach_mm          how far the print may be off the paper, either way.
std::variant<EdgeSighting, EdgeMiss> find_edge(const Sampler& image,
                                               const Affine<ScanPx, PageMm>& scan_from_page,
                                               const Point<PageMm>& ring,
                                               const Eigen::Vector2d& outward, double clear_mm,
                                               double expected_mm, double reach_mm);

}  // namespace versolay
