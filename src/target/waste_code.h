// The content of the marks in the waste of a production page, and the digits of its code.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "target/target_geometry.h"
#include "versolay/registration.h"

namespace versolay {

/// Arrangement of the rings along an edge of the paper; the value is the code's format number.
enum class WasteLattice {
  from_middle = 1,   // kLeastWastePitchMm apart, counted from the middle of the edge: older sheets
  from_corners = 2,  // evenly from corner to corner
};

/// Where the marks of a production sheet may be; the same on both sides, each as you look at it.
struct WasteLayout {
  double frame_mm = 0.0;         // the marks keep this far from every edge of the paper
  bool rows_top_bottom = false;  // rings in rows along these edges
  bool rows_left_right = false;
  double tag_x_mm = 0.0;  // from the left (or right) edge of the paper to the middle of a tag
  double tag_y_mm = 0.0;  // from the top (or bottom) edge
  int rings = 0;          // printed on each side; the rest of the places is taken by other things
  WasteLattice lattice = WasteLattice::from_corners;
  bool operator==(const WasteLayout&) const = default;
};

/// A page of a production sheet. `correction` is what the artwork of the back was put through, with
/// the marks: a point p of the artwork is printed at correction.landed_from_page()(p) of the page.
struct ProductionPage {
  PageIdentity identity;
  WasteLayout layout;
  Registration correction;
  bool operator==(const ProductionPage&) const = default;
};

/// The correction that the code can carry and that is nearest to `wanted`: whole micrometres,
/// microradians and parts per million. nullopt beyond 4.999 mm, 49.999 mrad of rotation, 4999 ppm
/// or 4.999 mrad of shear.
std::optional<Registration> coded_correction(const Registration& wanted);

/// 62 decimal digits, in fields of fixed width:
///   format, that of the lattice, 2 | width, height of the paper in 0.1 mm, 4 each | flags 2 |
///   run 7 | sheet 3 | correction: dx, dy um + 5000, 4 each, rotation urad + 50000, 5, scales
///   ppm + 5000, 4 each, shear urad + 5000, 4 | frame, tag_x, tag_y in 0.1 mm, 3 each | rings 3 |
///   check sum 3
/// flags: 1 short-edge turn, 2 verso, 4 rows at top and bottom, 8 rows at left and right.
/// run: its characters as digits of base 32. Check sum: the digits before it as one number, mod
/// 997. Precondition: the correction is a coded one, lengths are multiples of 0.1 mm.
std::string waste_code_digits(const ProductionPage& page);

/// nullopt when the text is not one of ours, or is of a format that is not known.
std::optional<ProductionPage> production_page_from_digits(std::string_view digits);

}  // namespace versolay
