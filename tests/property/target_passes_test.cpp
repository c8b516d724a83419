#include <gmock/gmock.h>

#include <Eigen/LU>
#include <cmath>
#include <set>

#include "target/geometry.h"
#include "target/identity.h"
#include "target/pass_marks.h"
#include "versolay/registration.h"
#include "versolay/result.h"

namespace versolay {
namespace {

struct Case {
  const char* paper;
  Turn turn;
  int passes;
};

void PrintTo(const Case& c, std::ostream* out) {
  *out << c.paper << " " << to_string(c.turn) << " x" << c.passes;
}

class TargetPassesTest : public testing::TestWithParam<Case> {
 protected:
  TargetGeometry geometry() const {
    return target_geometry(parse_paper(GetParam().paper), GetParam().turn, GetParam().passes);
  }
};

INSTANTIATE_TEST_SUITE_P(
    Papers, TargetPassesTest,
    testing::Values(Case{"a4", Turn::long_edge, 2}, Case{"a4", Turn::long_edge, 5},
                    Case{"a4", Turn::short_edge, 6}, Case{"letter", Turn::long_edge, 6},
                    Case{"a3", Turn::long_edge, 6}, Case{"tabloid", Turn::short_edge, 6},
                    Case{"297x210mm", Turn::short_edge, 5}, Case{"420x297mm", Turn::long_edge, 6}));

// One pass is off by 3 mm one way and turned, another the other way: that is what the places stand
// apart for.
constexpr double kOffMm = 3.0;
constexpr double kTurnedRad = 0.4 / 180 * 3.14159265;
constexpr double kTagHalfDiagonalMm = 3.5 * kPassTagModuleMm * 1.41421356;

/// How far a point of a page moves that is off by as much in some direction, against a page that
/// lies as it should.
double reach_mm(const Point<PageMm>& p) { return kOffMm + kTurnedRad * p.vec().norm(); }

double distance(const Point<PageMm>& a, const Point<PageMm>& b) {
  return (a.vec() - b.vec()).norm();
}

double radius_mm(const Mark& mark, const TargetGeometry& g) {
  if (mark.kind == MarkKind::ring) return g.ring.outer_radius_mm;
  return 1.41421356 * (mark.kind == MarkKind::tag ? 4 * g.tag_module_mm : 12.5 * g.code_module_mm);
}

// A ring is known to 10 um on either axis (tests/bench/README.md); the lay of a pass, an affine
// map, to a third of that in the middle of the page, and its rotation to 0.1 mrad.
TEST_P(TargetPassesTest, EveryPassTellsItsLay) {
  const TargetGeometry g = geometry();
  ASSERT_EQ(static_cast<int>(g.passes.size()), GetParam().passes - 1);
  for (const PassMarks& pass : g.passes) {
    EXPECT_GE(pass.rings.size(), 14u);
    RegistrationMatrix information = RegistrationMatrix::Zero();
    for (const auto& p : pass.rings) {
      const auto j = displacement_jacobian(relabel<VersoMm>(p));
      information += j.transpose() * j / (0.01 * 0.01);
    }
    const RegistrationMatrix covariance = information.inverse();
    EXPECT_LT(std::sqrt(covariance(0, 0)), 0.004) << "pass " << pass.pass;
    EXPECT_LT(std::sqrt(covariance(1, 1)), 0.004) << "pass " << pass.pass;
    EXPECT_LT(std::sqrt(covariance(2, 2)), 0.07) << "pass " << pass.pass;
  }
}

TEST_P(TargetPassesTest, EveryPassHasRingsInEveryQuarterOfThePage) {
  for (const PassMarks& pass : geometry().passes) {
    Eigen::Vector4i quarters = Eigen::Vector4i::Zero();
    for (const auto& p : pass.rings) ++quarters[(p.x > 0 ? 1 : 0) + (p.y > 0 ? 2 : 0)];
    EXPECT_GE(quarters.minCoeff(), 1) << quarters.transpose();
  }
}

TEST_P(TargetPassesTest, ThePassesKeepClearOfThePageAndOfEachOther) {
  const TargetGeometry g = geometry();
  for (const PassMarks& a : g.passes) {
    for (const Point<PageMm>& ring : a.rings) {
      const double reach = g.ring.outer_radius_mm + reach_mm(ring);
      for (const Mark& mark : g.marks) {
        EXPECT_GT(distance(ring, mark.at),
                  g.ring.outer_radius_mm + kOffMm +
                      (mark.kind == MarkKind::ring ? radius_mm(mark, g) : 0.0))
            << "pass " << a.pass << " and " << mark.id;
      }
      for (const HolePlace& hole : g.holes) {
        for (const double x : {hole.at.x, -hole.at.x}) {
          for (const double y : {hole.at.y, -hole.at.y}) {
            EXPECT_GT(distance(ring, {x, y}),
                      hole.clear_radius_mm + g.ring.outer_radius_mm + kOffMm)
                << hole.id;
          }
        }
      }
      EXPECT_LT(std::abs(ring.x) + reach, g.paper.width_mm / 2);
      EXPECT_LT(std::abs(ring.y) + reach, g.paper.height_mm / 2);
      for (const PassMarks& b : g.passes) {
        for (const Point<PageMm>& other : b.rings) {
          if (a.pass == b.pass && other.vec() == ring.vec()) continue;
          // Both are off; of one pass, both by the same.
          const double apart = a.pass == b.pass ? 0.0 : 2 * kOffMm;
          EXPECT_GT(distance(ring, other), 2 * g.ring.outer_radius_mm + apart);
        }
        for (const Side side : {Side::recto, Side::verso}) {
          EXPECT_GT(distance(ring, b.tag(side)),
                    g.ring.outer_radius_mm + kTagHalfDiagonalMm + 2 * kOffMm);
        }
      }
    }
  }
}

// A pass that was fed the other way round, or printed on the other side, prints its tag there.
TEST_P(TargetPassesTest, TheTagOfTheBackIsWhereThatOfAHalfTurnedFrontWouldBe) {
  for (const PassMarks& pass : geometry().passes) {
    EXPECT_EQ(pass.verso_tag.vec(), -pass.recto_tag.vec());
    EXPECT_GT(distance(pass.verso_tag, pass.recto_tag), 2 * kTagHalfDiagonalMm + 2 * kOffMm);
  }
}

TEST(TargetPasses, ThePageOfTheFirstPassIsThatOfAnOrdinaryTarget) {
  const TargetGeometry plain = target_geometry(parse_paper("a4"), Turn::long_edge);
  const TargetGeometry fed = target_geometry(parse_paper("a4"), Turn::long_edge, 5);
  EXPECT_TRUE(plain.passes.empty());
  ASSERT_EQ(plain.marks.size(), fed.marks.size());
  for (std::size_t i = 0; i < plain.marks.size(); ++i) {
    EXPECT_EQ(plain.marks[i].id, fed.marks[i].id);
    EXPECT_EQ(plain.marks[i].at.vec(), fed.marks[i].at.vec());
  }
}

TEST(TargetPasses, APaperWithoutRoomIsRefused) {
  EXPECT_THROW(target_geometry(parse_paper("200x220mm"), Turn::long_edge, 6), Error);
}

TEST(TargetPasses, TheCodeSaysHowManyTimesASheetIsFed) {
  for (int passes = 2; passes <= kMostPasses; ++passes) {
    const PageIdentity identity{
        parse_paper("a3"), Turn::short_edge, "K7QX", 123, Side::verso, passes};
    const std::string text = code_text(identity);
    EXPECT_LE(text.size(), 29u);
    EXPECT_EQ(identity_from_code_text(text), identity) << text;
  }
  for (const char* text : {"VL2/2100X2970/L/K7QX/012/R/1", "VL2/2100X2970/L/K7QX/012/R/7",
                           "VL2/2100X2970/L/K7QX/012/R/", "VL2/2100X2970/L/K7QX/012/R",
                           "VL1/2100X2970/L/K7QX/012/R/3", "VL2/2100X2970/L/K7QX/012/R/33"}) {
    EXPECT_EQ(identity_from_code_text(text), std::nullopt) << text;
  }
}

TEST(TargetPasses, EveryPassTagMeansOneThing) {
  std::set<int> numbers;
  for (int pass = 2; pass <= kMostPasses; ++pass) {
    for (const Side side : {Side::recto, Side::verso}) {
      const PassTagMeaning meaning{pass, side};
      EXPECT_EQ(pass_tag_meaning(pass_tag_number(meaning)), meaning);
      numbers.insert(pass_tag_number(meaning));
    }
  }
  EXPECT_EQ(numbers.size(), 2u * (kMostPasses - 1));
  EXPECT_LT(*numbers.rbegin(), 35);  // the family 25h9 has 35 tags
  EXPECT_EQ(pass_tag_meaning(34), std::nullopt);
}

}  // namespace
}  // namespace versolay
