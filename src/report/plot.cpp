#include "report/plot.h"

#include <algorithm>
#include <cmath>

#include "core/numbers.h"
#include "report/shapes.h"

namespace versolay {
namespace {

std::string tick_words(double value, const Ticks& ticks) {
  return format_fixed(ticks.signs ? value : std::abs(value), ticks.decimals);
}

}  // namespace

Range Range::including(double value) const { return {std::min(low, value), std::max(high, value)}; }

Range Range::padded(double share) const { return {low - share * size(), high + share * size()}; }

Ticks ticks_of(const Range& range, int wanted) {
  const double rough = range.size() / wanted;
  const int power = static_cast<int>(std::floor(std::log10(rough)));
  const double unit = std::pow(10.0, power);
  const double step = rough <= unit       ? unit
                      : rough <= 2 * unit ? 2 * unit
                      : rough <= 5 * unit ? 5 * unit
                                          : 10 * unit;
  Ticks ticks;
  ticks.decimals = std::max(0, -static_cast<int>(std::floor(std::log10(step) + 1e-9)));
  for (double n = std::ceil(range.low / step - 1e-9); n * step <= range.high + 1e-9 * step; ++n) {
    ticks.values.push_back(n * step);
  }
  return ticks;
}

Plot::Plot(const PageRect& area, const Range& x, const Range& y, bool y_down) : area_(area) {
  scale_.mm_per_x = area.width_mm() / x.size();
  scale_.x0_mm = area.left_mm - scale_.mm_per_x * x.low;
  scale_.mm_per_y = (y_down ? 1 : -1) * area.height_mm() / y.size();
  scale_.y0_mm = (y_down ? area.top_mm : area.bottom_mm) - scale_.mm_per_y * y.low;
}

Point<PageMm> Plot::at(double x, double y) const {
  return {scale_.x0_mm + scale_.mm_per_x * x, scale_.y0_mm + scale_.mm_per_y * y};
}

Drawing Plot::axes(const Ticks& x, const Ticks& y, const std::string& x_words,
                   const std::string& y_words) const {
  constexpr double kTickMm = 1.2;
  Drawing drawing;
  drawing.push_back(outlined(area_, kThinMm));
  for (double value : x.values) {
    const double at_x = at(value, 0).x;
    drawing.push_back(line({at_x, area_.bottom_mm}, {at_x, area_.bottom_mm + kTickMm}, kThinMm));
    drawing.push_back(
        label({at_x, area_.bottom_mm + kTickMm + kFigureTextMm}, tick_words(value, x)));
  }
  for (double value : y.values) {
    const double at_y = at(0, value).y;
    drawing.push_back(line({area_.left_mm - kTickMm, at_y}, {area_.left_mm, at_y}, kThinMm));
    drawing.push_back(label({area_.left_mm - kTickMm - 0.6, at_y + 0.35 * kFigureTextMm},
                            tick_words(value, y), Align::right));
  }
  const Point<PageMm> middle = area_.centre();
  if (!x_words.empty()) {
    drawing.push_back(label({middle.x, area_.bottom_mm + kTickMm + 2.4 * kFigureTextMm}, x_words));
  }
  Text along_y = label({-kFigureWidthMm / 2 + kFigureTextMm, middle.y}, y_words);
  along_y.angle_deg = -90;
  drawing.push_back(along_y);
  return drawing;
}

}  // namespace versolay
