#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>

#include "target/design.h"
#include "target/eye_scales.h"
#include "target/geometry.h"
#include "target/page_drawing.h"
#include "words/target_page_words.h"

namespace versolay {
namespace {

struct Case {
  const char* paper;
  Turn turn;
};

void PrintTo(const Case& c, std::ostream* out) { *out << c.paper << " " << to_string(c.turn); }

class TargetGeometryTest : public testing::TestWithParam<Case> {
 protected:
  Paper paper() const { return parse_paper(GetParam().paper); }
  TargetGeometry geometry() const { return target_geometry(paper(), GetParam().turn); }
};

INSTANTIATE_TEST_SUITE_P(
    Papers, TargetGeometryTest,
    testing::Values(Case{"a4", Turn::long_edge}, Case{"a4", Turn::short_edge},
                    Case{"a3", Turn::long_edge}, Case{"a3", Turn::short_edge},
                    Case{"letter", Turn::long_edge}, Case{"tabloid", Turn::short_edge},
                    Case{"200x220mm", Turn::long_edge}, Case{"297x210mm", Turn::short_edge},
                    Case{"420x297mm", Turn::long_edge}, Case{"600x600mm", Turn::long_edge},
                    Case{"250x353mm", Turn::long_edge}));

double reach_mm(const Mark& mark, const TargetGeometry& geometry) {
  switch (mark.kind) {
    case MarkKind::ring:
      return geometry.ring.outer_radius_mm;
    case MarkKind::tag:
      return std::sqrt(2.0) * 4 * geometry.tag_module_mm;
    case MarkKind::code:
      return std::sqrt(2.0) * 12.5 * geometry.code_module_mm;
  }
  return 0.0;
}

TEST_P(TargetGeometryTest, MarksKeepClearOfEdgesAndOfEachOther) {
  const TargetGeometry g = geometry();
  for (const Mark& a : g.marks) {
    const double half = a.kind == MarkKind::ring  ? g.ring.outer_radius_mm
                        : a.kind == MarkKind::tag ? 4 * g.tag_module_mm
                                                  : 12.5 * g.code_module_mm;
    EXPECT_LE(std::abs(a.at.x) + half, g.paper.width_mm / 2 - 5.0) << a.id;
    EXPECT_LE(std::abs(a.at.y) + half, g.paper.height_mm / 2 - 5.0) << a.id;
    for (const Mark& b : g.marks) {
      if (a.side != b.side || a.id >= b.id) continue;
      const double gap = (a.at.vec() - b.at.vec()).norm() - reach_mm(a, g) - reach_mm(b, g);
      EXPECT_GE(gap, 1.0) << a.id << " and " << b.id;
    }
  }
}

// Nothing is printed where a hole must be clear, or within 5 mm of an edge; but for the pale lines
// that a prick is read by.
TEST_P(TargetGeometryTest, NothingIsDrawnWhereAHoleOrAnEdgeMustBeClear) {
  const TargetGeometry g = geometry();
  for (const Side side : {Side::recto, Side::verso}) {
    const PageIdentity identity{g.paper, g.turn, "K7QX", 1, side};
    for (const Shape& shape :
         target_page(g, identity, words::target_page_words(identity, "label"))) {
      std::vector<Point<PageMm>> places;
      double reach = 0.0;
      bool pale = false;
      if (const auto* disc = std::get_if<Disc>(&shape)) {
        places = {disc->centre};
        reach = disc->outer_radius_mm;
      } else if (const auto* polygon = std::get_if<Polygon>(&shape)) {
        places = polygon->corners;
      } else if (const auto* modules = std::get_if<Boxes>(&shape)) {
        for (const PageRect& box : modules->boxes) {
          places.insert(places.end(), {{box.left_mm, box.top_mm}, {box.right_mm, box.bottom_mm}});
        }
      } else if (const auto* line = std::get_if<Polyline>(&shape)) {
        places = line->points;
        reach = line->width_mm / 2;
        pale = line->ink.k <= kGraticuleInk;
      } else if (const auto* text = std::get_if<Text>(&shape)) {
        places = {text->at};
      }
      for (const auto& p : places) {
        EXPECT_LE(std::abs(p.x) + reach, g.paper.width_mm / 2 - 5.0);
        EXPECT_LE(std::abs(p.y) + reach, g.paper.height_mm / 2 - 5.0);
        for (const HolePlace& hole : g.holes) {
          if (pale && hole.kind == HoleKind::prick) continue;
          const auto centre = side == Side::recto
                                  ? relabel<PageMm>(hole.at)
                                  : relabel<PageMm>(verso_from_recto(g.axis())(hole.at));
          EXPECT_GE((p.vec() - centre.vec()).norm(), hole.clear_radius_mm + reach) << hole.id;
        }
      }
    }
  }
}

TEST_P(TargetGeometryTest, RingsOfBothSidesStandBackToBack) {
  const TargetGeometry g = geometry();
  for (const Mark& recto : g.marks) {
    if (recto.kind != MarkKind::ring || recto.side != Side::recto) continue;
    const std::string verso_id = "verso-" + recto.id.substr(6);
    const auto verso = std::find_if(g.marks.begin(), g.marks.end(),
                                    [&](const Mark& m) { return m.id == verso_id; });
    ASSERT_NE(verso, g.marks.end());
    EXPECT_EQ(recto_from_verso(g.axis())(relabel<VersoMm>(verso->at)), relabel<RectoMm>(recto.at));
  }
}

// Source  ISO 838: holes of 6 mm, 80 mm apart, 12 mm from the edge (from memory).
TEST_P(TargetGeometryTest, PunchPlacesAreThoseOfAnOfficePunchOnBothShortEdges) {
  const TargetGeometry g = geometry();
  std::vector<Point<RectoMm>> punched;
  for (const HolePlace& hole : g.holes) {
    if (hole.kind == HoleKind::punch) punched.push_back(hole.at);
  }
  ASSERT_EQ(punched.size(), 4u);
  const bool landscape = g.paper.width_mm > g.paper.height_mm;
  const double half = std::max(g.paper.width_mm, g.paper.height_mm) / 2;
  for (const auto& at : punched) {
    EXPECT_NEAR(half - std::abs(landscape ? at.x : at.y), 12.0, 1e-9);
    EXPECT_NEAR(std::abs(landscape ? at.y : at.x), 40.0, 1e-9);
  }
}

// A raster image processor snaps edges to its grid; radii that are whole pixels would snap the same
// on all sides and hide it.
TEST_P(TargetGeometryTest, RadiiAreNoMultiplesOfCommonPrinterPixels) {
  const TargetGeometry g = geometry();
  for (const double radius : {g.ring.outer_radius_mm, g.ring.inner_radius_mm}) {
    for (const double dpi : {300.0, 360.0, 600.0}) {
      const double pixels = radius * dpi / 25.4;
      EXPECT_GT(std::abs(pixels - std::round(pixels)), 0.1) << radius << " at " << dpi;
    }
  }
}

TEST(TargetDesign, PapersThatAreTooSmallAreRefusedWithTheLimits) {
  try {
    target_geometry(parse_paper("150x210mm"), Turn::long_edge);
    FAIL();
  } catch (const Error& e) {
    EXPECT_THAT(e.what(), testing::HasSubstr("least_width_mm=200 least_height_mm=220"));
  }
}

}  // namespace
}  // namespace versolay
