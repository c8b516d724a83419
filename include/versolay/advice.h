// The verdict: how to shift and how much to oversize the backs.
#pragma once

#include <Eigen/Core>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "versolay/layout.h"
#include "versolay/registration.h"
#include "versolay/result.h"

namespace versolay {

// What every command takes where nothing is said.
inline constexpr double kUsualPpi = 300.0;
inline constexpr double kUsualCoverage = 0.95;
inline constexpr double kUsualConfidence = 0.90;

enum class CountBy { card, sheet };                   // the promise is per card or per sheet
enum class Growth { equal, proportional, per_axis };  // how the oversize is shared by the axes

struct AdviceRequest {
  CardGrid grid;
  double ppi = kUsualPpi;
  double coverage = kUsualCoverage;      // P: share of future cards (sheets) without a sliver
  double confidence = kUsualConfidence;  // gamma
  CountBy count = CountBy::card;
  Growth growth = Growth::equal;
  double cut_sd_mm = 0.0;             // one sigma of a cut edge, independent per edge
  double step_mm = 0.0;               // shifts can be set in steps of this size only; 0: any
  bool can_rotate = true;             // the back page can be rotated
  bool can_scale = true;              // ... and scaled (and sheared); needs can_rotate
  bool can_move_cards = false;        // each card's back on its own: removes the residual field
  std::optional<int> cards;           // cards wanted: how many sheets to print
  std::optional<double> border_mm;    // border of the card back, for its centring
  std::optional<EdgeKind> back_edge;  // nullopt: not known
  std::optional<double> today_mm;     // total enlargement of the backs today, width and height
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

/// Why the back is left where it is.
enum class NoShift {
  none,         // a shift is advised
  not_settable  // it is smaller than one step (one pixel), uncertainty included
};

/// What the promise is about, and what it takes for granted.
struct HoldsFor {
  int sessions = 1;          // of printing behind it
  bool another_day = false;  // sessions are a sample of days: the promise covers further ones
  int run_sheets = 0;        // jobs no longer than the longest run that was tested
  int misfeeds = 0;          // seen and left out: the promise is about sheets that are none
  int sheets = 0;            // seen, misfeeds included
  double misfeed_share_high = 0.0;  // 90 % upper bound of their share
  bool even_scatter_seen = false;   // enough feeds to see drift, two places or skewness
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
  double typical_off_mm = 0.0;    // by how much the back is off: median over future cards ...
  double worst_off_mm = 0.0;      // ... and at the stated coverage
  double typical_percent = 50.0;  // median over future cards
  double worst_percent = 50.0;    // at the stated coverage
  /// Expected share of the cards that are at least this well centred, percent.
  double within_55_45 = 0.0;
  double within_60_40 = 0.0;
  double within_70_30 = 0.0;
  /// What would show of the border (of its narrower pair of sides) were the picture scaled up to
  /// the oversize instead.
  double scaled_border_mm = 0.0;
};

/// One cell of the sheet at the advised shift and oversize.
struct CellAdvice {
  int row = 0;  // as in CardGrid: seen from the front
  int column = 0;
  Point<VersoMm> centre;               // on the back page
  Eigen::Vector2d field_mm{0.0, 0.0};  // constant residual there, beyond the page's correction
  double good_percent = 0.0;           // expected share of cards without a sliver
};

/// One point of the curve "good cards against oversize".
struct YieldPoint {
  double share_of_advised = 0.0;  // 1: the advised oversize
  Oversize oversize;
  ExpectedGood good;
  bool in_tables = false;  // one of the few that tables show; the others draw the curve
};

/// What the user's enlargement of today is worth.
struct HandMethod {
  double total_mm = 0.0;    // in width and in height; half of it on each side
  ExpectedGood as_printed;  // the back left where it is
  ExpectedGood moved;       // the back moved as advised
};

/// How the backs of a job are printed.
enum class WayToPrint {
  as_printed,  // where they land uncorrected
  moved,       // as advised
  fitted       // each moved by what the front of its sheet needs, which is scanned first
};
struct PrintingWay {
  WayToPrint way = WayToPrint::moved;
  Oversize oversize;  // that keeps the promise
  ExpectedGood good;  // at the oversize of moved backs
};

/// The same for an image editor: whole pixels, no turning.
struct EditorSettings {
  int canvas_width_px = 0;  // of a back that is drawn at the size of the card, enlarged
  int canvas_height_px = 0;
  int right_px = 0;  // by how much the back artwork is moved, seen from the back
  int down_px = 0;
  Oversize oversize;  // that keeps the promise with so coarse a correction
};

/// Where backs that are pictures lie closer than their oversize: beyond the line half way between
/// them the neighbour shows.
struct SharedCuts {
  double reach_mm = 0.0;          // of a back towards its neighbour
  double gutter_needed_mm = 0.0;  // for which all of the oversize helps
  ExpectedGood good;              // with that reach
  double sure_share = 0.0;        // of cards without a sliver, at the confidence of the request
};

/// What further target sheets would bring.
struct Saving {
  int sheets = 0;
  Oversize oversize;  // to be expected then
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
  double standard_error_mm = 0.0;       // of the Monte Carlo, of the larger side
  std::optional<Oversize> heavy_tails;  // if large errors are more frequent than normal; asked for
                                        // by a coverage of 0.99 or more, or by the readings
  std::optional<Oversize> with_misfeeds;  // with the sheets that were left out as misfeeds
  HoldsFor holds_for;
  /// How sure it is that the back moves towards its place and not away from it, 0.5..1.
  double direction_sure = 1.0;
  /// What the back would need if it were not moved; where the direction is not sure.
  std::optional<Oversize> unmoved;
  /// Allowance for a job on another day, by the stated assumption that days differ as much as feeds
  /// do; where one session, or several that agree, were measured.
  std::optional<Oversize> another_day;
  bool scatter_is_odd = false;  // drift, two places, skewness or tails: `oversize` allows for it
  Oversize if_normal;           // what it would be without that
  std::vector<CellAdvice> cells;
  std::vector<YieldPoint> curve;
  std::optional<HandMethod> by_hand;      // where the request states it
  std::optional<SharedCuts> shared_cuts;  // imposition/shared_cuts.h; nullopt: nothing is lost
  std::optional<EditorSettings> editor;   // profile/printing_ways.h; nullopt: not asked for
  std::vector<PrintingWay> ways;  // side by side (profile/printing_ways.h); empty: not asked for
  std::vector<Saving> savings;    // one, two and five more target sheets; empty: not known
  int sheets_needed = 0;          // good sheets for the cards wanted
  std::optional<int> sheets_to_print;  // so that there are enough wholly good ones ...
  std::optional<int>
      sheets_for_cards;            // ... or enough good cards, bad ones printed again alone ...
  double sheets_assurance = 0.95;  // ... with this probability
  std::optional<Centring> centring;
  double effective_dof = 0.0;  // of the oversize itself (stats/effective_dof.h)
  std::int64_t draws_outer = 0;
  std::int64_t draws_inner = 0;
  Notices warnings;
};

}  // namespace versolay
