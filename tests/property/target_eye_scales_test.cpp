#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>

#include "target/eye_scales.h"
#include "target/geometry.h"

namespace versolay {
namespace {

class EyeScalesTest : public testing::TestWithParam<const char*> {
 protected:
  TargetGeometry geometry() const {
    return target_geometry(parse_paper(GetParam()), Turn::long_edge);
  }
};
INSTANTIATE_TEST_SUITE_P(Papers, EyeScalesTest,
                         testing::Values("a4", "a3", "letter", "tabloid", "200x220mm", "297x210mm",
                                         "420x297mm", "600x600mm"),
                         [](const auto& tested) { return std::string(tested.param); });

/// All corners of what is drawn, with half the width of its line.
std::vector<std::pair<Eigen::Vector2d, double>> corners(const Drawing& drawing) {
  std::vector<std::pair<Eigen::Vector2d, double>> all;
  for (const Shape& shape : drawing) {
    const auto& line = std::get<Polyline>(shape);
    for (const auto& p : line.points) all.emplace_back(p.vec(), line.width_mm / 2);
  }
  return all;
}

double clear_of_mm(const Mark& mark, const TargetGeometry& g) {
  if (mark.kind == MarkKind::ring) return g.ring.outer_radius_mm;
  return std::sqrt(2.0) *
         (mark.kind == MarkKind::tag ? 4 * g.tag_module_mm : 12.5 * g.code_module_mm);
}

// 2 mm of white round the marks and the places of holes; the words' room is 60 mm round the middle.
TEST_P(EyeScalesTest, VerniersKeepClearOfMarksHolesEdgesAndWords) {
  const TargetGeometry g = geometry();
  ASSERT_EQ(g.verniers.size(), 8u);
  for (const Side side : {Side::recto, Side::verso}) {
    for (const VernierPlace& vernier : g.verniers) {
      Drawing drawing;
      add_vernier(drawing, vernier, side, g.axis());
      for (const auto& [p, half_width] : corners(drawing)) {
        EXPECT_GT(std::max(std::abs(p.x()), std::abs(p.y())), 60.0) << vernier.id;
        EXPECT_LT(std::abs(p.x()), g.paper.width_mm / 2 - 10.0) << vernier.id;
        EXPECT_LT(std::abs(p.y()), g.paper.height_mm / 2 - 10.0) << vernier.id;
        for (const Mark& mark : g.marks) {
          if (mark.side != side) continue;
          EXPECT_GE((p - mark.at.vec()).norm() - half_width - clear_of_mm(mark, g), 2.0)
              << vernier.id << " and " << mark.id;
        }
        for (const HolePlace& hole : g.holes) {
          const Eigen::Vector2d at =
              side == Side::recto ? hole.at.vec() : verso_from_recto(g.axis())(hole.at).vec();
          EXPECT_GE((p - at).norm(), hole.clear_radius_mm + 2.0) << vernier.id << hole.id;
        }
      }
    }
  }
}

// Rings are measured within half a millimetre of their rim and found within 1.2 mm.
TEST_P(EyeScalesTest, NetsOfLinesKeepClearOfTheRings) {
  const TargetGeometry g = geometry();
  for (const HolePlace& hole : g.holes) {
    if (hole.kind != HoleKind::prick) continue;
    Drawing drawing;
    add_graticule(drawing, relabel<PageMm>(hole.at), Side::recto);
    for (const Mark& mark : g.marks) {
      if (mark.side != Side::recto) continue;
      for (const auto& [p, half_width] : corners(drawing)) {
        EXPECT_GE((p - mark.at.vec()).norm() - half_width - clear_of_mm(mark, g), 1.5) << mark.id;
      }
    }
  }
}

/// Places of the straight lines of a vernier along its scale, in the view of the verso.
std::vector<double> lines_along(const VernierPlace& vernier, Side side, TurnAxis axis) {
  Drawing drawing;
  add_vernier(drawing, vernier, side, axis);
  std::vector<double> places;
  for (const Shape& shape : drawing) {
    const auto& line = std::get<Polyline>(shape);
    const auto seen = [&](std::size_t i) {
      return side == Side::verso ? line.points[i].vec()
                                 : verso_from_recto(axis)(relabel<RectoMm>(line.points[i])).vec();
    };
    const Eigen::Vector2d along = unit_vector(vernier.axis);
    const bool across_the_scale = line.points.size() == 2 &&
                                  std::abs(along.dot(seen(1) - seen(0))) < 1e-9 &&
                                  (seen(1) - seen(0)).norm() > 2.0;
    if (across_the_scale) places.push_back(along.dot(seen(0)));
  }
  std::sort(places.begin(), places.end());
  return places;
}

TEST(EyeScales, AVernierHasLinesOfTwoPitchesThatStartTogether) {
  for (const Turn turn : {Turn::long_edge, Turn::short_edge}) {
    const TargetGeometry g = target_geometry(parse_paper("a4"), turn);
    for (const VernierPlace& vernier : g.verniers) {
      const auto front = lines_along(vernier, Side::recto, g.axis());
      const auto back = lines_along(vernier, Side::verso, g.axis());
      ASSERT_EQ(front.size(), 14u);
      ASSERT_EQ(back.size(), 10u);
      for (std::size_t i = 1; i < front.size(); ++i)
        EXPECT_NEAR(front[i] - front[i - 1], 1.0, 1e-9);
      for (std::size_t i = 1; i < back.size(); ++i) EXPECT_NEAR(back[i] - back[i - 1], 0.9, 1e-9);
      EXPECT_NEAR(front[2], back[0], 1e-9);  // the middle line and line 0
      EXPECT_NEAR(back[4], unit_vector(vernier.axis).dot(vernier_line(vernier, 4).vec()), 1e-9);
    }
  }
}

TEST(EyeScales, NoNumberOfANetBelongsToTwoDirectionsOrSides) {
  std::vector<int> middles;
  for (const Side side : {Side::recto, Side::verso}) {
    for (const ScaleAxis axis : {ScaleAxis::across, ScaleAxis::down}) {
      middles.push_back(graticule_middle(side, axis));
    }
  }
  std::sort(middles.begin(), middles.end());
  for (std::size_t i = 1; i < middles.size(); ++i) {
    EXPECT_GT(middles[i] - middles[i - 1], 2 * kGraticuleReachMm + 2);
  }
}

}  // namespace
}  // namespace versolay
