#include <gmock/gmock.h>

#include "imposition/art_reach.h"

namespace versolay {
namespace {

const Paper kPaper = parse_paper("200x280mm");
constexpr int kPxPerMm = 10;

/// A white page with ink from the cards of a 2 x 2 block outward by `beyond_mm`.
Raster page_with_block(const PageRect& ink, std::uint16_t value, int channels) {
  Raster page;
  page.width_px = static_cast<int>(kPaper.width_mm) * kPxPerMm;
  page.height_px = static_cast<int>(kPaper.height_mm) * kPxPerMm;
  page.channels = channels;
  page.samples.assign(static_cast<std::size_t>(page.width_px * page.height_px * channels),
                      channels == 4 ? 0 : 255);
  for (int y = 0; y < page.height_px; ++y) {
    for (int x = 0; x < page.width_px; ++x) {
      const double x_mm = (x + 0.5) / kPxPerMm - kPaper.width_mm / 2;
      const double y_mm = (y + 0.5) / kPxPerMm - kPaper.height_mm / 2;
      if (x_mm < ink.left_mm || x_mm > ink.right_mm || y_mm < ink.top_mm || y_mm > ink.bottom_mm) {
        continue;
      }
      for (int c = 0; c < channels; ++c) page.at(x, y, c) = value;
    }
  }
  return page;
}

std::vector<CardPlace> places(double reach_mm) {
  return verso_places(centred_grid({63, 88}, 2, 2, 0.0), TurnAxis::vertical, {reach_mm, reach_mm});
}

PageRect block(double left, double top, double right, double bottom) {
  return {-63 - left, -88 - top, 63 + right, 88 + bottom};
}

TEST(ArtReach, IsEnoughWhereTheInkGoesOn) {
  for (const int channels : {1, 3}) {
    EXPECT_FALSE(
        early_end_of_art(page_with_block(block(1, 1, 1, 1), 40, channels), kPaper, places(0.8)));
  }
  EXPECT_FALSE(early_end_of_art(page_with_block(block(1, 1, 1, 1), 200, 4), kPaper, places(0.8)));
}

TEST(ArtReach, FindsTheEdgeWhereItEndsSoonest) {
  const auto end =
      early_end_of_art(page_with_block(block(1, 0.2, 0.5, 1), 40, 3), kPaper, places(0.8));
  ASSERT_TRUE(end);
  EXPECT_NEAR(end->reach_mm, 0.2, 0.11);  // a pixel
  EXPECT_NEAR(end->wanted_mm, 0.8, 1e-9);
}

TEST(ArtReach, ArtThatEndsAtTheCutDoesNotReachAtAll) {
  const auto end = early_end_of_art(page_with_block(block(0, 0, 0, 0), 40, 3), kPaper, places(0.8));
  ASSERT_TRUE(end);
  EXPECT_NEAR(end->reach_mm, 0.0, 0.06);
}

TEST(ArtReach, OfAWhiteBorderNothingHasToGoOn) {
  EXPECT_FALSE(
      early_end_of_art(page_with_block(block(-5, -5, -5, -5), 40, 3), kPaper, places(0.8)));
  // Light grey is ink, paper white is not.
  EXPECT_TRUE(early_end_of_art(page_with_block(block(0, 0, 0, 0), 240, 3), kPaper, places(0.8)));
  EXPECT_FALSE(early_end_of_art(page_with_block(block(0, 0, 0, 0), 252, 3), kPaper, places(0.8)));
}

}  // namespace
}  // namespace versolay
