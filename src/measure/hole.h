// Sub-pixel position of a hole through the sheet, seen against black card.
//
// Accuracy: a registration from four punched holes alone is off by 7, 10 um rms (across, along the
// feed), from eight pricks alone by 16, 10 um; with the edges of the paper by 6, 9 and 12, 8 um.
// One scan a side at 150 dpi, paper of 200 x 220 mm, 200 sheets of the second simulator
// (tests/bench/README.md).
#pragma once

#include <optional>
#include <string_view>
#include <variant>

#include "measure/sampler.h"
#include "target/target_geometry.h"
#include "versolay/frames.h"

namespace versolay {

struct HoleSighting {
  Point<ScanPx> centre;
  double rim_sd_mm = 0.0;  // one axis, from the scatter of the rim
  double radius_mm = 0.0;
  double ovality = 0.0;               // amplitude of the second harmonic over the radius
  Eigen::Vector2d oval_mm{0.0, 0.0};  // the second harmonic of the outline, cosine and sine
  double contrast = 0.0;              // (paper - hole) / paper
};

/// Why a hole was not found.
enum class HoleMiss {
  outside,    // the clear disc is not wholly in the picture
  none_made,  // the clear disc is clean
  poor_contrast,
  uneven_light,  // a crescent of shadow inside it: a lid and no card behind
  cut_off,       // touches the edge of the clear disc
  wrong_size,
  ragged,         // the rim is too rough, torn or covered
  marks_smeared,  // the rings around it disagree with each other
};

std::string_view to_string(HoleMiss miss);  // "poor_contrast"

/// Looks for a dark hole inside the clear disc around `expected`, and fits its rim.
/// @param page_from_scan  good to 1 % in scale, and to half a millimetre in place.
std::variant<HoleSighting, HoleMiss> find_hole(const Sampler& image,
                                               const Affine<PageMm, ScanPx>& page_from_scan,
                                               const Point<PageMm>& expected, HoleKind kind,
                                               double clear_radius_mm);

}  // namespace versolay
