#include "target/eye_scales.h"

#include <array>
#include <functional>
#include <string>
#include <string_view>

namespace versolay {
namespace {

using Eigen::Vector2d;
using Placed = std::function<Point<PageMm>(const Vector2d&)>;

constexpr double kFineMm = 0.08;
constexpr double kMainMm = 0.12;
constexpr double kDigitWidth = 0.55;  // of its height
constexpr double kDigitGap = 0.25;

/// Strokes of the digits 0 to 9 in a box from (0, 0) to (1, 1), y down. They are lines and no font,
/// because those of the front's verniers are printed in mirror writing, to be read from behind.
const std::array<std::vector<std::vector<Vector2d>>, 10>& digit_strokes() {
  using Strokes = std::vector<std::vector<Vector2d>>;
  static const std::array<Strokes, 10> all = {
      Strokes{{{0, 0}, {1, 0}, {1, 1}, {0, 1}, {0, 0}}},
      Strokes{{{0.2, 0.25}, {0.6, 0}, {0.6, 1}}},
      Strokes{{{0, 0}, {1, 0}, {1, 0.5}, {0, 0.5}, {0, 1}, {1, 1}}},
      Strokes{{{0, 0}, {1, 0}, {1, 1}, {0, 1}}, {{0.3, 0.5}, {1, 0.5}}},
      Strokes{{{0, 0}, {0, 0.6}, {1, 0.6}}, {{0.75, 0.25}, {0.75, 1}}},
      Strokes{{{1, 0}, {0, 0}, {0, 0.5}, {1, 0.5}, {1, 1}, {0, 1}}},
      Strokes{{{1, 0}, {0, 0}, {0, 1}, {1, 1}, {1, 0.5}, {0, 0.5}}},
      Strokes{{{0, 0}, {1, 0}, {0.4, 1}}},
      Strokes{{{0, 0}, {1, 0}, {1, 1}, {0, 1}, {0, 0}}, {{0, 0.5}, {1, 0.5}}},
      Strokes{{{1, 0.5}, {0, 0.5}, {0, 0}, {1, 0}, {1, 1}, {0, 1}}}};
  return all;
}

/// A number, upright in the view in which `placed` puts it, its middle at `centre`.
void add_number(Drawing& drawing, int number, const Vector2d& centre, double height_mm,
                double width_mm, Black ink, const Placed& placed) {
  const std::string digits = std::to_string(number);
  const double advance = height_mm * (kDigitWidth + kDigitGap);
  Vector2d corner =
      centre -
      Vector2d(advance * static_cast<double>(digits.size()) - height_mm * kDigitGap, height_mm) / 2;
  for (const char digit : digits) {
    for (const auto& stroke : digit_strokes()[static_cast<std::size_t>(digit - '0')]) {
      Polyline line{{}, width_mm, false, 0.0, ink};
      for (const Vector2d& p : stroke) {
        line.points.push_back(
            placed(corner + height_mm * p.cwiseProduct(Vector2d(kDigitWidth, 1.0))));
      }
      drawing.push_back(std::move(line));
    }
    corner.x() += advance;
  }
}

void add_line(Drawing& drawing, const Point<PageMm>& a, const Point<PageMm>& b, double width_mm,
              Black ink) {
  drawing.push_back(Polyline{{a, b}, width_mm, false, 0.0, ink});
}

constexpr double kVernierStartMm = -4.5;  // line 0 of the back, along the scale from its middle

}  // namespace

int graticule_middle(Side side, ScaleAxis axis) {
  return (side == Side::recto ? 13 : 33) + (axis == ScaleAxis::across ? 0 : 10);
}

int vernier_middle(ScaleAxis axis) { return axis == ScaleAxis::across ? 3 : 7; }

Point<VersoMm> vernier_line(const VernierPlace& vernier, double k) {
  const double along = kVernierStartMm + kVernierPitchMm * k;
  return Point<VersoMm>::from(vernier.at.vec() + along * unit_vector(vernier.axis));
}

void add_graticule(Drawing& drawing, const Point<PageMm>& centre, Side side) {
  constexpr double kOverrunMm = 0.15;
  constexpr double kNumberMm = 0.8;  // height
  constexpr double kNumberLineMm = 0.09;
  const double end = kGraticuleReachMm + kOverrunMm;
  const Black ink{kGraticuleInk};
  const Placed placed = [&](const Vector2d& p) { return Point<PageMm>::from(centre.vec() + p); };
  const int lines = static_cast<int>(kGraticuleReachMm / kGraticulePitchMm);
  for (int i = -lines; i <= lines; ++i) {
    const double at = i * kGraticulePitchMm;
    const double width = i % 2 == 0 ? kMainMm : kFineMm;
    add_line(drawing, placed({at, -end}), placed({at, end}), width, ink);
    add_line(drawing, placed({-end, at}), placed({end, at}), width, ink);
  }
  for (int mm = -kGraticuleReachMm; mm <= kGraticuleReachMm; mm += 2) {
    add_number(drawing, graticule_middle(side, ScaleAxis::across) + mm,
               {mm, -end - 0.25 - kNumberMm / 2}, kNumberMm, kNumberLineMm, ink, placed);
    add_number(drawing, graticule_middle(side, ScaleAxis::down) + mm,
               {-end - 0.25 - 0.68 * kNumberMm, mm}, kNumberMm, kNumberLineMm, ink, placed);
  }
}

/// Lines of both sides overlap by 1 mm, so that they still meet when the back is displaced across
/// the scale.
void add_vernier(Drawing& drawing, const VernierPlace& vernier, Side side, TurnAxis axis) {
  constexpr double kOverlapMm = 0.5;
  constexpr double kShortMm = 2.4;
  constexpr double kLongMm = 3.0;
  constexpr double kNumberAtMm = 4.0;
  constexpr double kNumberMm = 1.2;
  const Black ink{};
  const Vector2d along = unit_vector(vernier.axis);
  const Vector2d across = along.reverse();  // downward, or to the right
  const Placed placed = [&](const Vector2d& offset) {
    const auto verso = Point<VersoMm>::from(vernier.at.vec() + offset);
    return side == Side::verso ? relabel<PageMm>(verso)
                               : relabel<PageMm>(recto_from_verso(axis)(verso));
  };
  const auto at = [&](double s, double t) { return Vector2d(s * along + t * across); };
  // One above the other, numbers are higher than the lines are apart: every second steps aside.
  const auto number_at = [&](int i) {
    return kNumberAtMm + (vernier.axis == ScaleAxis::down && i % 2 != 0 ? kNumberMm : 0.0);
  };

  if (side == Side::verso) {
    for (int k = 0; k < kVernierDivisions; ++k) {
      const double s = kVernierStartMm + kVernierPitchMm * k;
      add_line(drawing, placed(at(s, -kOverlapMm)), placed(at(s, k % 5 == 0 ? kLongMm : kShortMm)),
               kMainMm, ink);
      add_number(drawing, k, at(s, number_at(k)), kNumberMm, kMainMm, ink, placed);
    }
    return;
  }
  const int middle = vernier_middle(vernier.axis);
  // The last line that line 9 of the back can meet is that of the largest displacement.
  for (int m = -kVernierReach; m < kVernierReach + kVernierDivisions; ++m) {
    const double s = kVernierStartMm + m;
    const bool numbered = m <= kVernierReach;
    add_line(drawing, placed(at(s, kOverlapMm)), placed(at(s, numbered ? -kLongMm : -kShortMm)),
             kMainMm, ink);
    if (numbered) {
      add_number(drawing, middle + m, at(s, -number_at(m)), kNumberMm, kMainMm, ink, placed);
    }
  }
}

}  // namespace versolay
