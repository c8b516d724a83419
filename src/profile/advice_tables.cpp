#include "profile/advice_tables.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/numbers.h"
#include "profile/findings.h"
#include "stats/promised_oversize.h"
#include "stats/proportion.h"

namespace versolay {
namespace {

constexpr std::size_t kCurvePoints = 25;  // from 0 to 1.5 times the advised oversize
constexpr std::size_t kAdvised = 16;      // index of 1.0
constexpr std::size_t kTableStep = 4;     // of the points, every fourth is for tables

int px_up(double mm, double ppi) {
  // 0.508 mm at 100 ppi is 2 px, not 3 because of the last bit.
  return static_cast<int>(std::ceil(artwork_px_from_mm(mm, ppi) - 1e-9));
}

HandMethod by_hand(const Advice& advice, stats::FutureCards future, const stats::MonteCarlo& mc) {
  const double total_mm = *advice.request.today_mm;
  const Eigen::Vector2d side_mm = Eigen::Vector2d::Constant(total_mm / 2);
  const int cells = static_cast<int>(future.cards.centres.size());
  HandMethod today{total_mm, {}, expected_good(stats::yield_of(future, side_mm, mc), cells)};
  future.correction.setZero();
  today.as_printed = expected_good(stats::yield_of(future, side_mm, mc), cells);
  return today;
}

/// Of the two borders when the picture between them is off by that much.
double wider_share_percent(double off_mm, double border_mm) {
  return std::min(100.0, 50 * (1 + off_mm / border_mm));
}

}  // namespace

Oversize oversize_of(const Eigen::Vector2d& mm, double ppi) {
  return {mm.x(), mm.y(), px_up(mm.x(), ppi), px_up(mm.y(), ppi)};
}

ExpectedGood expected_good(const stats::Yield& yield, int cells) {
  const stats::Band cards = stats::band_of(yield.cards);
  return {cells * cards.mean, cells * cards.low, cells * cards.high,
          100 * stats::band_of(yield.sheets).mean, cells};
}

void fill_tables(Advice& advice, const stats::FutureCards& future,
                 const Eigen::Vector2d& oversize_mm, const stats::MonteCarlo& mc) {
  const int cells = static_cast<int>(future.cards.centres.size());
  std::array<double, kCurvePoints> shares{};
  for (std::size_t i = 0; i < shares.size(); ++i) shares[i] = static_cast<double>(i) / kAdvised;
  const std::vector<stats::Yield> curve = stats::yield_curve(future, oversize_mm, shares, mc);
  for (std::size_t i = 0; i < shares.size(); ++i) {
    advice.curve.push_back({shares[i], oversize_of(shares[i] * oversize_mm, advice.request.ppi),
                            expected_good(curve[i], cells), i % kTableStep == 0});
  }
  advice.expected_good = advice.curve[kAdvised].good;
  for (std::size_t i = 0; i < future.cards.centres.size(); ++i) {
    const Cell& cell = advice.request.grid.cells[i];
    CellAdvice c;
    c.row = cell.row;
    c.column = cell.column;
    c.centre = future.cards.centres[i];
    if (!future.cards.fixed_mm.empty()) c.field_mm = future.cards.fixed_mm[i];
    c.good_percent = 100 * curve[kAdvised].cells[i];
    advice.cells.push_back(c);
  }
  if (advice.request.today_mm) advice.by_hand = by_hand(advice, future, mc);
}

void plan_job(Advice& advice, const stats::Yield& yield) {
  std::erase_if(advice.warnings,
                [](const Notice& n) { return n.code == findings::sheets_hopeless.code(); });
  const int wanted = *advice.request.cards;
  const int cells = advice.expected_good.cells;
  advice.sheets_needed = (wanted + cells - 1) / cells;
  const int most = 100 * advice.sheets_needed + 1000;
  advice.sheets_to_print =
      stats::sheets_to_print(advice.sheets_needed, yield.sheets, advice.sheets_assurance, most);
  std::vector<stats::BatchYield> batches;
  for (std::size_t i = 0; i < yield.cards.size(); ++i) {
    batches.push_back({cells * yield.cards[i], yield.card_variance[i]});
  }
  advice.sheets_for_cards = stats::batches_to_make(wanted, batches, advice.sheets_assurance, most);
  if (!advice.sheets_to_print) {
    advice.warnings.push_back(findings::sheets_hopeless(advice.sheets_needed));
  }
}

double scaled_border_mm(double border_mm, double oversize_mm, double card_mm) {
  return std::max(0.0, border_mm * (1 + 2 * oversize_mm / card_mm) - oversize_mm);
}

std::vector<double> off_centre_mm(stats::FutureCards future,
                                  std::span<const stats::Promise> promises,
                                  const stats::MonteCarlo& mc) {
  future.whole_sheets = false;
  future.direction_is_estimated = false;
  const Eigen::Vector2d both(1.0, 1.0);
  std::vector<double> off = {stats::PromisedOversize(future, both, 0.5, mc).at(0.5).factor};
  const stats::PromisedOversize promised(future, both, promises.front().coverage, mc);
  for (const stats::Promise& promise : promises) {
    off.push_back(promised.at(promise.confidence).factor);
  }
  return off;
}

Centring centring_of(stats::FutureCards future, const AdviceRequest& request,
                     const Eigen::Vector2d& oversize_mm, const stats::MonteCarlo& mc) {
  future.whole_sheets = false;
  const double border = *request.border_mm;
  const stats::Promise promise{request.coverage, request.confidence};
  const std::vector<double> off = off_centre_mm(future, {&promise, 1}, mc);
  Centring c;
  c.border_mm = border;
  const CardSize& card = request.grid.card;
  c.scaled_border_mm = std::min(scaled_border_mm(border, oversize_mm.x(), card.width_mm),
                                scaled_border_mm(border, oversize_mm.y(), card.height_mm));
  c.typical_off_mm = off[0];
  c.worst_off_mm = off[1];
  c.typical_percent = wider_share_percent(c.typical_off_mm, border);
  c.worst_percent = wider_share_percent(c.worst_off_mm, border);
  // 55/45 is a displacement of a tenth of the border, 60/40 of a fifth, 70/30 of two fifths.
  const std::array limits = {0.1 * border, 0.2 * border, 0.4 * border};
  const std::vector<stats::Yield> yields = stats::yield_curve(future, {1.0, 1.0}, limits, mc);
  c.within_55_45 = 100 * stats::band_of(yields[0].cards).mean;
  c.within_60_40 = 100 * stats::band_of(yields[1].cards).mean;
  c.within_70_30 = 100 * stats::band_of(yields[2].cards).mean;
  return c;
}

}  // namespace versolay
