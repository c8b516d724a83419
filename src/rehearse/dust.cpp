#include "rehearse/dust.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace versolay::rehearse {

Dust::Dust(int count, const Bed& bed, Random random) {
  for (int i = 0; i < count; ++i) {
    const bool hair = random.uniform() < 0.15;
    const double width_mm = hair ? random.uniform(0.02, 0.04) : random.uniform(0.02, 0.15);
    const double length_mm = hair ? random.uniform(0.5, 3.0) : width_mm;
    const double angle = random.uniform(0.0, std::numbers::pi);
    specks_.push_back({{random.uniform(0.0, bed.width_px()), random.uniform(0.0, bed.height_px())},
                       {std::cos(angle), std::sin(angle)},
                       length_mm / 2.0 / bed.mm_per_px(),
                       width_mm / 2.0 / bed.mm_per_px(),
                       static_cast<float>(random.uniform(0.2, 0.7))});
  }
}

void Dust::darken(int row, int width, float* light) const {
  for (const Speck& s : specks_) {
    const double reach = s.half_length_px + s.half_width_px + 2.0;
    if (std::abs(row + 0.5 - s.centre_px.y()) > reach) continue;
    const int left = std::max(0, static_cast<int>(s.centre_px.x() - reach));
    const int right = std::min(width - 1, static_cast<int>(s.centre_px.x() + reach));
    for (int x = left; x <= right; ++x) {
      const Eigen::Vector2d d = Eigen::Vector2d(x + 0.5, row + 0.5) - s.centre_px;
      const double beyond_end = std::max(0.0, std::abs(d.dot(s.along)) - s.half_length_px);
      const double across = std::abs(d.x() * s.along.y() - d.y() * s.along.x());
      const double inside = s.half_width_px - std::hypot(beyond_end, across);
      const auto share = static_cast<float>(std::clamp(0.5 + inside, 0.0, 1.0));
      light[x] *= 1.0f - share * (1.0f - s.passes);
    }
  }
}

}  // namespace versolay::rehearse
