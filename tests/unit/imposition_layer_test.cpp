#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "imposition/layer.h"
#include "imposition/layer_legend.h"

namespace versolay {
namespace {

using ::testing::HasSubstr;

constexpr double kPpi = 300.0;
const LineStyle kDark{"dark", {0, 60, 66}, {255, 255, 255}, 0.15, 0.0, 0.0};
const LineStyle kLight{"light", {240, 176, 40}, {16, 12, 4}, 0.15, 0.7, 0.9};

double mm(double px) { return px * 25.4 / kPpi; }

TEST(Layer, LinesFivePixelsApartHaveTheArtBetweenThem) {
  const Paper paper = parse_paper("101.6x101.6mm");  // 1200 px
  const double x = mm(0.5);                          // in the middle of a pixel
  GuidesLayer layer{paper, {}, {}};
  for (const double at : {x, x + mm(5)}) {
    layer.lines.push_back({kDark, {{at, -40}, {at, 40}}, false});
  }
  RgbaImage image = picture_of(layer, kPpi);
  const int row = image.height_px / 2;
  const int line = image.width_px / 2;
  int clear = 0;
  for (int i = 1; i < 5; ++i) clear += image.at(line + i, row)[3] < 64 ? 1 : 0;
  EXPECT_GE(clear, 1);
  for (const int at : {line, line + 5}) {
    EXPECT_EQ(image.at(at, row)[3], 255);
    EXPECT_NEAR(image.at(at, row)[0], kDark.rgb[0], 2);
    EXPECT_NEAR(image.at(at, row)[1], kDark.rgb[1], 2);
  }
  EXPECT_GT(image.at(line - 1, row)[0], 150) << "the halo";
}

TEST(Layer, DashesBeginAndEndInTheCorners) {
  GuidesLayer layer{parse_paper("100x100mm"), {{kLight, {{-20, 0}, {20.3, 0}}, false}}, {}};
  RgbaImage image = picture_of(layer, kPpi);
  const int row = image.height_px / 2;
  const auto alpha = [&](double x_mm) {
    const int at = static_cast<int>((x_mm + 50) / 25.4 * kPpi);
    return std::max(image.at(at, row)[3], image.at(at, row - 1)[3]);
  };
  EXPECT_GT(alpha(-19.95), 128);
  EXPECT_GT(alpha(20.25), 128);
  EXPECT_EQ(alpha(-20 + 0.8), 0);  // half a dash and half a gap on
  EXPECT_THAT(svg_of(layer), HasSubstr("stroke-dasharray="));
}

TEST(LayerLegend, StandsInTheWasteAndNowhereElse) {
  const Paper a4 = parse_paper("a4");
  for (const PageRect& drawn : {PageRect{-95.5, -133, 95.5, 133},     // waste below
                                PageRect{-95.5, -133, 95.5, 146},     // above
                                PageRect{-95.5, -146, 95.5, 146}}) {  // beside
    GuidesLayer layer{a4, {}, {}};
    ASSERT_TRUE(add_layer_legend(layer, "Backs.",
                                 {{kDark, "cut here", false}, {kLight, "reach", true}}, drawn));
    EXPECT_EQ(layer.notes.size(), 3U);
    RgbaImage image = picture_of(layer, 150);
    int inked = 0;
    for (int y = 0; y < image.height_px; ++y) {
      for (int x = 0; x < image.width_px; ++x) {
        if (image.at(x, y)[3] == 0) continue;
        ++inked;
        const double at_x = (x + 0.5) * 25.4 / 150 - 105;
        const double at_y = (y + 0.5) * 25.4 / 150 - 148.5;
        EXPECT_FALSE(at_x > drawn.left_mm && at_x < drawn.right_mm && at_y > drawn.top_mm &&
                     at_y < drawn.bottom_mm);
        EXPECT_LT(std::abs(at_x), 105 - 2.5);
        EXPECT_LT(std::abs(at_y), 148.5 - 2.5);
      }
    }
    EXPECT_GT(inked, 500);
  }
}

TEST(LayerLegend, IsLeftOutWhereThereIsNoWaste) {
  GuidesLayer layer{parse_paper("a4"), {}, {}};
  EXPECT_FALSE(
      add_layer_legend(layer, "Backs.", {{kDark, "cut here", false}}, {-102, -146, 102, 146}));
  EXPECT_TRUE(layer.lines.empty());
  EXPECT_TRUE(layer.notes.empty());
}

}  // namespace
}  // namespace versolay
