#include <gmock/gmock.h>

#include "versolay/paper.h"
#include "versolay/registration.h"

namespace versolay {
namespace {

using ::testing::DoubleNear;

constexpr Registration kSome{0.42, -0.31, 1.2, 150.0, -220.0, 0.3};

TEST(Registration, PositiveRotationTurnsTheRightHandSideDown) {
  const Registration turned{.rotation_mrad = 1.0};
  const Eigen::Vector2d e = turned.displacement_mm({100.0, 0.0});
  EXPECT_DOUBLE_EQ(e.x(), 0.0);
  EXPECT_DOUBLE_EQ(e.y(), 0.1);  // y is down: clockwise as seen
}

TEST(Registration, LandedPointIsThePointPlusItsDisplacement) {
  const Point<VersoMm> p{-80.0, 120.0};
  const Point<VersoMm> landed = kSome.landed_from_page()(p);
  EXPECT_THAT(landed.x, DoubleNear(p.x + kSome.displacement_mm(p).x(), 1e-12));
  EXPECT_THAT(landed.y, DoubleNear(p.y + kSome.displacement_mm(p).y(), 1e-12));
}

TEST(Registration, ArtworkSentThroughTheInverseLandsWhereItWasMeant) {
  const Point<VersoMm> wanted{70.0, -110.0};
  const Point<VersoMm> landed = kSome.landed_from_page()(kSome.page_from_wanted()(wanted));
  EXPECT_THAT(landed.x, DoubleNear(wanted.x, 1e-12));
  EXPECT_THAT(landed.y, DoubleNear(wanted.y, 1e-12));
}

TEST(Registration, IsRecoveredFromItsOwnMap) {
  const Registration back = registration_from(kSome.landed_from_page());
  for (int i = 0; i < 6; ++i) EXPECT_THAT(back.vec()[i], DoubleNear(kSome.vec()[i], 1e-9));
}

TEST(Turn, OfALandscapePageOnItsLongEdgeIsAboutTheHorizontalAxis) {
  EXPECT_EQ(turn_axis(Turn::long_edge, parse_paper("a4")), TurnAxis::vertical);
  EXPECT_EQ(turn_axis(Turn::short_edge, parse_paper("a4")), TurnAxis::horizontal);
  EXPECT_EQ(turn_axis(Turn::long_edge, parse_paper("297x210mm")), TurnAxis::horizontal);
  EXPECT_EQ(turn_axis(Turn::short_edge, parse_paper("297x210mm")), TurnAxis::vertical);
}

TEST(Turn, TwiceIsTheIdentity) {
  for (TurnAxis axis : {TurnAxis::vertical, TurnAxis::horizontal}) {
    const Point<VersoMm> p{12.0, -34.0};
    EXPECT_EQ(verso_from_recto(axis)(recto_from_verso(axis)(p)), p);
  }
}

}  // namespace
}  // namespace versolay
