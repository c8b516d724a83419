#include "report/figure_parts.h"

#include <fmt/format.h>

#include <cmath>

#include "words/direction_words.h"
#include "words/translation.h"

namespace versolay {

Drawing& layer(Figure& figure, Role role) {
  if (figure.layers.empty() || figure.layers.back().role != role)
    figure.layers.push_back({role, {}});
  return figure.layers.back().shapes;
}

double add_legend(Figure& figure, double top_mm, const std::vector<LegendEntry>& entries) {
  constexpr double kRowMm = 5.0;
  constexpr double kMarkAtMm = -kFigureWidthMm / 2 + 5.0;
  double y = top_mm;
  for (const LegendEntry& entry : entries) {
    for (const Shape& shape : moved(entry.mark, kMarkAtMm, y + kRowMm / 2)) {
      layer(figure, entry.role).push_back(shape);
    }
    layer(figure, Role::frame)
        .push_back(label({kMarkAtMm + 5.0, y + kRowMm / 2 + 0.35 * kFigureTextMm}, entry.words,
                         Align::left));
    y += kRowMm;
  }
  return y;
}

Figure finished(Figure figure, double height_mm) {
  if (figure.width_mm <= 0) figure.width_mm = kFigureWidthMm;
  figure.height_mm = height_mm;
  for (Layer& l : figure.layers) l.shapes = moved(l.shapes, 0, -height_mm / 2);
  if (figure.scale) figure.scale->y0_mm -= height_mm / 2;
  return figure;
}

std::string across_mm_words(double dx_mm) {
  return dx_mm == 0 ? "0 mm" : fmt::format("{} {}", distance_words(dx_mm), across_words(dx_mm));
}

std::string along_mm_words(double dy_mm) {
  return dy_mm == 0 ? "0 mm" : fmt::format("{} {}", distance_words(dy_mm), along_words(dy_mm));
}

std::string turn_words(double rotation_mrad) {
  if (rotation_mrad == 0) return tr("0 degrees");
  return fmt::format("{} {}", angle_words(rotation_mrad), sense_words(rotation_mrad));
}

}  // namespace versolay
