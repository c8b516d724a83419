#include "profile/advice_tables.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/numbers.h"
#include "stats/promised_oversize.h"

namespace versolay {
namespace {

constexpr std::array kCurve = {0.0, 0.25, 0.5, 0.75, 1.0, 1.25, 1.5};
constexpr std::size_t kAdvised = 4;  // index of 1.0
/// Common practice: backs enlarged by so many pixels in all at 300 ppi, by how well the printer
/// aligns.
constexpr std::array kByHandPx = {10, 16, 20};
constexpr double kByHandPpi = 300.0;

int px_up(double mm, double ppi) {
  // 0.508 mm at 100 ppi is 2 px, not 3 because of the last bit.
  return static_cast<int>(std::ceil(artwork_px_from_mm(mm, ppi) - 1e-9));
}

std::vector<HandMethod> by_hand(const Advice& advice, stats::FutureCards future,
                                const stats::MonteCarlo& mc) {
  std::array<double, kByHandPx.size()> sides{};
  for (std::size_t i = 0; i < sides.size(); ++i) {
    sides[i] = kByHandPx[i] / 2.0 * kMmPerInch / kByHandPpi;
  }
  const int cells = static_cast<int>(future.cards.centres.size());
  const std::vector<stats::Yield> moved = stats::yield_curve(future, {1, 1}, sides, mc);
  std::vector<stats::Yield> as_printed = moved;
  if (advice.shift_advised()) {
    future.correction.setZero();
    as_printed = stats::yield_curve(future, {1, 1}, sides, mc);
  }
  std::vector<HandMethod> list;
  for (std::size_t i = 0; i < sides.size(); ++i) {
    list.push_back({kByHandPx[i], sides[i], expected_good(as_printed[i], cells),
                    expected_good(moved[i], cells)});
  }
  return list;
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
  const std::vector<stats::Yield> curve = stats::yield_curve(future, oversize_mm, kCurve, mc);
  for (std::size_t i = 0; i < kCurve.size(); ++i) {
    advice.curve.push_back({kCurve[i], oversize_of(kCurve[i] * oversize_mm, advice.request.ppi),
                            expected_good(curve[i], cells)});
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
  advice.by_hand = by_hand(advice, future, mc);
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
