#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "app/back_layer.h"
#include "core/files.h"
#include "support/pdf_render.h"

namespace versolay {
namespace {

using testing::HasSubstr;
using testing_support::ScratchFolder;

class BackLayerTest : public testing::Test {
 protected:
  BackLayerTest() {
    request_.profile.paper = parse_paper("a4");
    request_.profile.turn = Turn::long_edge;
    request_.profile.mean = {1.0, -2.0, 0, 0, 0, 0};
    request_.card = {63, 88};
    request_.grid = GridShape{3, 3};
    request_.oversize = Reach{0.7, 0.7};
    request_.png = scratch_ / "layer.png";
    request_.svg = scratch_ / "layer.svg";
  }

  ScratchFolder scratch_;
  BackLayerRequest request_;
};

TEST_F(BackLayerTest, DrawsTheCutThePlaceAndTheReachAtTheResolutionOfThePage) {
  const auto report = draw_back_layer(request_);
  ASSERT_TRUE(report.ok());
  EXPECT_EQ(report.value().width_px, 2480);
  EXPECT_EQ(report.value().height_px, 3508);
  const std::string svg = read_file(request_.svg);
  EXPECT_THAT(svg, HasSubstr("width=\"2480\" height=\"3508\""));
  EXPECT_THAT(svg, HasSubstr("viewBox=\"-105 -148.5 210 297\""));
  // The lower right card of the page: cut at 94.5, 132; the artwork a millimetre to the left and
  // two down, because backs land a millimetre too far right and two too far up.
  EXPECT_THAT(svg, HasSubstr("L94.5 132"));
  EXPECT_THAT(svg, HasSubstr("L93.5 134"));
  EXPECT_THAT(svg, HasSubstr("L94.2 134.7"));
  // Transparency laid over white: the paper is white between the lines, and not at them.
  const Raster flat = read_raster(request_.png);
  const auto px = [](double mm, double half) { return static_cast<int>((mm + half) / 25.4 * 300); };
  EXPECT_EQ(flat.at(px(20, 105), px(20, 148.5), 0), 255);
  EXPECT_LT(flat.at(px(93.5, 105), px(100, 148.5), 1), 60);  // place of the artwork: no green in it
  EXPECT_NEAR(flat.ppi_x.value(), 300, 0.02);
}

}  // namespace
}  // namespace versolay
