// The verdict: how to shift and how much to oversize the backs.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "versolay/layout.h"
#include "versolay/registration.h"
#include "versolay/result.h"

namespace versolay {

enum class CountBy { card, sheet };                   // the promise is per card or per sheet
enum class Growth { equal, proportional, per_axis };  // how the oversize is shared by the axes

struct AdviceRequest {
  CardGrid grid;
  double ppi = 300.0;
  double coverage = 0.95;    // P: share of future cards (sheets) without a sliver
  double confidence = 0.90;  // gamma
  CountBy count = CountBy::card;
  Growth growth = Growth::equal;
  double cut_sd_mm = 0.0;           // one sigma of a cut edge, independent per edge
  double step_mm = 0.0;             // shifts can be set in steps of this size only; 0: any
  bool can_rotate = true;           // the back page can be rotated (scale and shear go with it)
  std::optional<int> cards;         // cards wanted: how many sheets to print
  std::optional<double> border_mm;  // border of the card back, for its centring
  std::uint64_t seed = 20250101;
};

/// Shift of the BACK ARTWORK, as one looks at the back page: dx > 0 move it right, dy > 0 down,
/// rotation > 0 turn it clockwise.
struct BackShift {
  double dx_mm = 0.0;
  double dy_mm = 0.0;
  double rotation_mrad = 0.0;
  double scale_x_ppm = 0.0;  // these three only where they were measured and rotation is allowed
  double scale_y_ppm = 0.0;
  double shear_mrad = 0.0;
  double dx_px = 0.0;
  double dy_px = 0.0;
};

/// Half widths of the intervals of the shift, each on its own, at the confidence of the request.
struct ShiftUncertainty {
  double dx_mm = 0.0;
  double dy_mm = 0.0;
  double rotation_mrad = 0.0;
};

/// Why the back is better left where it is.
enum class NoShift {
  none,         // a shift is advised
  not_real,     // the readings are compatible with no constant part
  not_settable  // it is smaller than one step (one pixel), uncertainty included
};

/// Oversize PER SIDE: the back image reaches this far beyond the card on every side.
struct Oversize {
  double x_mm = 0.0;
  double y_mm = 0.0;
  int x_px = 0;  // ceil(x_mm * ppi / 25.4)
  int y_px = 0;
};

struct ExpectedGood {
  double cards_per_sheet = 0.0;       // expected number without a sliver, at the advised oversize
  double low = 0.0;                   // 5 %
  double high = 0.0;                  // 95 %
  double whole_sheets_percent = 0.0;  // sheets without any bad card
  int cells = 0;
};

/// Share of the wider border of a pair of opposite sides: 50 = centred, 60 = 60/40. The border is
/// measured where the card is worst, at its corners.
struct Centring {
  double border_mm = 0.0;
  double typical_percent = 50.0;  // median over future cards
  double worst_percent = 50.0;    // at the stated coverage
};

struct Advice {
  AdviceRequest request;
  BackShift shift;
  ShiftUncertainty shift_uncertainty;
  NoShift no_shift = NoShift::none;
  bool shift_advised() const { return no_shift == NoShift::none; }
  Oversize oversize;
  int total_width_px = 0;  // added to the width of the image: 2 * x_px
  int total_height_px = 0;
  ExpectedGood expected_good;
  std::optional<Oversize>
      with_one_more_sheet;             // what one more target sheet would bring; few sheets
  int sheets_needed = 0;               // good sheets for the cards wanted
  std::optional<int> sheets_to_print;  // so that there are enough good ones ...
  double sheets_assurance = 0.95;      // ... with this probability
  std::optional<Centring> centring;
  double cross_check_ratio = 1.0;  // fiducial bound / plug-in bound
  std::int64_t draws_outer = 0;
  std::int64_t draws_inner = 0;
  Notices warnings;
};

}  // namespace versolay
