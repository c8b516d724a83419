// The frame of a plot: values to places, ticks, axes.
#pragma once

#include <string>
#include <vector>

#include "report/document.h"

namespace versolay {

struct Range {
  double low = 0.0;
  double high = 1.0;

  double size() const { return high - low; }
  Range including(double value) const;
  /// Wider by `share` of its size at both ends.
  Range padded(double share) const;
};

/// Values at 1, 2 or 5 times a power of ten within the range, about `wanted` of them.
struct Ticks {
  std::vector<double> values;
  int decimals = 0;   // that their labels need
  bool signs = true;  // false: the words at the axis say on which side of zero a value is
};
Ticks ticks_of(const Range& range, int wanted);

/// Maps values into a rectangle of a figure. `y_down`: larger values are lower on the page, as the
/// places on a sheet are; otherwise they are higher, as in a chart.
class Plot {
 public:
  Plot(const PageRect& area, const Range& x, const Range& y, bool y_down);

  Point<PageMm> at(double x, double y) const;
  const PageRect& area() const { return area_; }
  PlotScale scale() const { return scale_; }

  /// Frame, ticks below and on the left with their numbers, and the words at the axes.
  Drawing axes(const Ticks& x, const Ticks& y, const std::string& x_words,
               const std::string& y_words) const;

 private:
  PageRect area_;
  PlotScale scale_;
};

}  // namespace versolay
