// The lines for readings by eye lie just where scans are read. Pages as a renderer draws them, with
// pin holes painted in: are they found where they are, and no others?
#include <gmock/gmock.h>

#include <cmath>
#include <map>

#include "app/target.h"
#include "measure/side_reading.h"
#include "support/findings.h"
#include "support/pdf_render.h"

namespace versolay {
namespace {

using testing_support::Renderer;

class GraticuleTest : public testing::TestWithParam<int> {
 protected:
  void SetUp() override {
    if (!testing_support::has_program("pdftocairo")) GTEST_SKIP() << "pdftocairo is missing";
    const auto pdf = scratch_ / "target.pdf";
    TargetRequest request;
    request.paper = parse_paper("a4");
    request.sheets = 1;
    request.run = "K7QX";
    request.pdf = pdf;
    geometry_ = run_target(request).geometry;
    const Raster page = testing_support::render(Renderer::pdftocairo, pdf, 1, dpi());
    scan_.grey.width = page.width_px;
    scan_.grey.height = page.height_px;
    for (const std::uint16_t sample : page.samples) {
      scan_.grey.pixels.push_back(static_cast<std::uint8_t>(sample));
    }
    scan_.file = "page.png";
  }

  int dpi() const { return GetParam(); }

  /// A black disc; each pixel as dark as the share of it that is covered.
  void paint(const Eigen::Vector2d& at_mm, double radius_mm) {
    constexpr int kSub = 16;
    const double px_per_mm = dpi() / 25.4;
    const Eigen::Vector2d centre =
        (at_mm + Eigen::Vector2d(geometry_.paper.width_mm, geometry_.paper.height_mm) / 2) *
        px_per_mm;
    const double reach = radius_mm * px_per_mm + 2;
    for (int y = static_cast<int>(centre.y() - reach); y < centre.y() + reach; ++y) {
      for (int x = static_cast<int>(centre.x() - reach); x < centre.x() + reach; ++x) {
        int inside = 0;
        for (int i = 0; i < kSub * kSub; ++i) {
          const Eigen::Vector2d p(x + (i % kSub + 0.5) / kSub, y + (i / kSub + 0.5) / kSub);
          inside += (p - centre).norm() < radius_mm * px_per_mm ? 1 : 0;
        }
        std::uint8_t& pixel = scan_.grey.row(y)[x];
        const double share = static_cast<double>(inside) / (kSub * kSub);
        pixel = static_cast<std::uint8_t>(std::lround(pixel * (1 - share) + 15 * share));
      }
    }
  }

  testing_support::ScratchFolder scratch_;
  TargetGeometry geometry_;
  Scan scan_;
};
INSTANTIATE_TEST_SUITE_P(Dpi, GraticuleTest, testing::Values(200, 300, 600));

TEST_P(GraticuleTest, LinesAreNotTakenForHoles) {
  const auto reading = read_side(scan_);
  ASSERT_TRUE(reading) << reading.refusal();
  for (const SideFeature& f : reading.value().places.features) EXPECT_EQ(f.kind, FeatureKind::edge);
  for (const SideMiss& miss : reading.value().misses) {
    EXPECT_FALSE(std::holds_alternative<HoleMiss>(miss.miss)) << miss.id;
  }
}

// The lines cross the rim at places that depend on where the hole is: five places in every disc.
TEST_P(GraticuleTest, PricksAreReadWhereTheyAre) {
  double squares = 0.0;
  int numbers = 0;
  const Scan clean = scan_;
  for (int trial = 0; trial < 5; ++trial) {
    scan_ = clean;
    std::map<std::string, Eigen::Vector2d> places;
    for (const HolePlace& hole : geometry_.holes) {
      if (hole.kind != HoleKind::prick) continue;
      const double k = 5.0 * (hole.id.back() - '0') + trial;
      places[hole.id] = hole.at.vec() + 0.8 * Eigen::Vector2d(std::sin(3.7 * k), std::cos(2.3 * k));
      paint(places[hole.id], 0.3 + 0.05 * trial);
    }
    const auto reading = read_side(scan_);
    ASSERT_TRUE(reading) << reading.refusal();
    int read = 0;
    for (const SideFeature& f : reading.value().places.features) {
      if (f.kind != FeatureKind::prick) continue;
      const Eigen::Vector2d error = f.at.vec() - places.at(f.id);
      EXPECT_LT(error.norm(), 0.03) << f.id;
      squares += error.squaredNorm();
      numbers += 2;
      ++read;
    }
    EXPECT_EQ(read, 8);
  }
  // A prick's own burr and roundness are 0.026 mm; the lines must be small beside them.
  EXPECT_LT(std::sqrt(squares / numbers), 0.008);
}

}  // namespace
}  // namespace versolay
