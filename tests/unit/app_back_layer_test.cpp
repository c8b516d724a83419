#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <utility>
#include <vector>

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
  EXPECT_THAT(svg, HasSubstr("width=\"210mm\" height=\"297mm\""));
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
  // Above the cards is written what the lines mean, in the picture too.
  EXPECT_TRUE(report.value().legend);
  EXPECT_THAT(svg, HasSubstr(">put the back images here</text>"));
  int dark = 0;
  for (int y = 0; y < px(-133, 148.5); ++y) {
    for (int x = 0; x < flat.width_px; ++x) dark += flat.at(x, y, 0) < 80 ? 1 : 0;
  }
  EXPECT_GT(dark, 2000);
}

TEST_F(BackLayerTest, EveryCutIsDrawnOnceAndNoReachWhereCardsTouch) {
  ASSERT_TRUE(draw_back_layer(request_).ok());
  const std::string svg = read_file(request_.svg);
  const auto lines_of = [&](const std::string& group) {
    const std::size_t from = svg.find("<g id=\"" + group + "\">");
    const std::string part = svg.substr(from, svg.find("</g>", from) - from);
    int count = 0;
    for (std::size_t at = part.find("<path"); at != std::string::npos;
         at = part.find("<path", at + 1)) {
      ++count;
    }
    return count / 2;  // a halo and a line each
  };
  EXPECT_EQ(lines_of("cut"), 24);  // 3 x 4 in either direction
  EXPECT_EQ(lines_of("place-of-the-artwork"), 24);
  EXPECT_EQ(lines_of("reach-of-the-artwork"), 12);  // around the block
}

/// Source  Web Content Accessibility Guidelines 2.1, "relative luminance" and "contrast ratio".
double luminance(unsigned rgb) {
  double sum = 0.0;
  for (const auto& [shift, weight] : {std::pair{16, 0.2126}, {8, 0.7152}, {0, 0.0722}}) {
    const double v = ((rgb >> shift) & 0xFF) / 255.0;
    sum += weight * (v <= 0.03928 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4));
  }
  return sum;
}

// Source  the same, 1.4.11: 3:1 for what must be seen. A line and its halo that have 9:1 between
// them have 3:1 against any art, the one or the other.
TEST_F(BackLayerTest, EveryLineHoldsOnDarkAndOnLightArt) {
  ASSERT_TRUE(draw_back_layer(request_).ok());
  const std::string svg = read_file(request_.svg);
  std::vector<unsigned> strokes;
  for (std::size_t at = svg.find("stroke=\"#"); at < svg.find("<text");
       at = svg.find("stroke=\"#", at + 1)) {
    strokes.push_back(static_cast<unsigned>(std::stoul(svg.substr(at + 9, 6), nullptr, 16)));
  }
  ASSERT_GE(strokes.size(), 6U);
  for (std::size_t i = 0; i + 1 < strokes.size(); i += 2) {
    const double a = luminance(strokes[i]) + 0.05;
    const double b = luminance(strokes[i + 1]) + 0.05;
    EXPECT_GE(std::max(a, b) / std::min(a, b), 9.0) << std::hex << strokes[i + 1];
  }
}

}  // namespace
}  // namespace versolay
