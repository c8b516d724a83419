// The paper's edge against black card, in pictures whose truth is known.
#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <numbers>
#include <optional>
#include <string>

#include "measure/paper_edge.h"

namespace versolay {
namespace {

constexpr double kPaper = 230.0;
constexpr double kCard = 30.0;
constexpr int kSidePx = 400;
constexpr double kClearMm = 3.0;
constexpr double kExpectedMm = 8.0;
constexpr double kReachMm = 4.0;

struct Picture {
  double dpi = 150.0;
  double blur_mm = 0.045;  // of the optics; the pixel's own width comes on top
  double slant = 0.0;      // of the edge against the rows of pixels
  double card = kCard;
  std::function<double(double)> tone = [](double light) { return light; };
  double px_per_mm() const { return dpi / 25.4; }
};

/// Paper above an edge that lies `edge_px` below the picture's top in its middle column.
GreyImage edge_at(double edge_px, const Picture& p) {
  const double sigma_px = std::hypot(p.blur_mm * p.px_per_mm(), 1 / std::sqrt(12.0));
  GreyImage image;
  image.width = image.height = kSidePx;
  for (int y = 0; y < kSidePx; ++y) {
    for (int x = 0; x < kSidePx; ++x) {
      const double inside_px = edge_px + p.slant * (x + 0.5 - kSidePx / 2.0) - (y + 0.5);
      const double paper = 0.5 * std::erfc(-inside_px / (std::numbers::sqrt2 * sigma_px));
      const double light = p.tone(p.card + (kPaper - p.card) * paper);
      image.pixels.push_back(static_cast<std::uint8_t>(std::lround(light)));
    }
  }
  return image;
}

std::variant<EdgeSighting, EdgeMiss> look(const GreyImage& image, const Picture& p,
                                          double ring_from_edge_mm = kExpectedMm) {
  // The page's origin is the middle of the picture.
  const Affine<ScanPx, PageMm> scan_from_page(Eigen::Matrix2d::Identity() * p.px_per_mm(),
                                              Eigen::Vector2d(kSidePx / 2.0, kSidePx / 2.0));
  return find_edge(Sampler(image), scan_from_page, {0.0, -ring_from_edge_mm}, {0.0, 1.0}, kClearMm,
                   ring_from_edge_mm, kReachMm);
}

/// Least and greatest error, mm, over all places of the edge between two rows of pixels.
std::pair<double, double> errors_mm(const Picture& p) {
  double least = 1e9;
  double most = -1e9;
  for (int step = 0; step < 10; ++step) {
    const double edge_px = kSidePx / 2.0 + step / 10.0;
    const auto edge = look(edge_at(edge_px, p), p);
    EXPECT_TRUE(std::holds_alternative<EdgeSighting>(edge)) << step;
    if (!std::holds_alternative<EdgeSighting>(edge)) continue;
    const double error = (std::get<EdgeSighting>(edge).at.y - edge_px) / p.px_per_mm();
    least = std::min(least, error);
    most = std::max(most, error);
  }
  return {least, most};
}

struct Scanned {
  const char* name;
  Picture picture;
};
void PrintTo(const Scanned& s, std::ostream* out) { *out << s.name; }

class Edge : public testing::TestWithParam<Scanned> {};

TEST_P(Edge, IsFoundWhereverThePixelsFall) {
  const auto [least, most] = errors_mm(GetParam().picture);
  EXPECT_GT(least, -0.004);
  EXPECT_LT(most, 0.004);
}

INSTANTIATE_TEST_SUITE_P(Pictures, Edge,
                         testing::Values(Scanned{"at_150_dpi", {}},
                                         Scanned{"at_150_dpi_aslant", {.slant = 0.004}},
                                         Scanned{"at_300_dpi", {.dpi = 300}},
                                         Scanned{"at_600_dpi", {.dpi = 600}},
                                         Scanned{"blurred", {.dpi = 300, .blur_mm = 0.1}}),
                         [](const auto& tested) { return std::string(tested.param.name); });

// A tone curve shifts all edges outwards equally, which cancels between opposite edges and between
// the sides of a sheet. It must not shift them more here than there.
TEST(EdgeTone, ShiftsAllEdgesAlike) {
  Picture gamma;
  gamma.tone = [](double light) { return 255 * std::pow(light / 255, 1 / 2.2); };
  const auto [least, most] = errors_mm(gamma);
  EXPECT_LT(most - least, 0.008);
  EXPECT_LT(std::abs(most), 0.05);
}

TEST(EdgeMisses, AreToldApart) {
  const auto miss = [](const auto& edge) {
    const auto* why = std::get_if<EdgeMiss>(&edge);
    return why ? std::optional(*why) : std::nullopt;
  };
  const Picture black;
  Picture lid;
  lid.card = 210;
  const GreyImage image = edge_at(kSidePx / 2.0, black);
  EXPECT_EQ(miss(look(edge_at(kSidePx / 2.0, lid), lid)), EdgeMiss::poor_contrast);
  EXPECT_EQ(miss(look(edge_at(kSidePx - 2.0, black), black, 8.0)), EdgeMiss::poor_contrast);
  // The ring itself is not in the picture.
  const Affine<ScanPx, PageMm> aside(Eigen::Matrix2d::Identity() * black.px_per_mm(),
                                     Eigen::Vector2d(-20.0, kSidePx / 2.0));
  EXPECT_EQ(miss(find_edge(Sampler(image), aside, {0.0, -8.0}, {0.0, 1.0}, kClearMm, 8.0, 4.0)),
            EdgeMiss::outside);
}

TEST(EdgeMisses, ATornEdgeIsRagged) {
  const Picture p;
  GreyImage image = edge_at(kSidePx / 2.0, p);
  for (int x = 0; x < kSidePx; ++x) {  // every other 2 mm is torn off by 2 mm
    if (x / 12 % 2 == 0) continue;
    for (int y = kSidePx / 2 - 12; y < kSidePx / 2; ++y) image.row(y)[x] = 30;
  }
  const auto edge = look(image, p);
  ASSERT_TRUE(std::holds_alternative<EdgeMiss>(edge));
  EXPECT_EQ(std::get<EdgeMiss>(edge), EdgeMiss::ragged);
}

}  // namespace
}  // namespace versolay
