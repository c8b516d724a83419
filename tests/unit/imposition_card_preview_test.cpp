#include <gtest/gtest.h>

#include "artwork/raster.h"
#include "core/files.h"
#include "imposition/card_preview.h"
#include "support/scratch_folder.h"

namespace versolay {
namespace {

/// Nine cells, each worse off than the one before.
Advice advice_for_nine() {
  Advice advice;
  advice.request.grid = centred_grid({63, 88}, 3, 3, 0.0);
  for (const Cell& cell : advice.request.grid.cells) {
    CellAdvice of_cell;
    of_cell.row = cell.row;
    of_cell.column = cell.column;
    of_cell.good_percent = 99.0 - cell.row - 0.1 * cell.column;
    advice.cells.push_back(of_cell);
  }
  return advice;
}

TEST(WorstCell, IsTheWorstOfAFullSheet) {
  EXPECT_EQ(worst_cell({}, advice_for_nine(), TurnAxis::vertical, 9).index, 8u);
  EXPECT_EQ(worst_cell({}, advice_for_nine(), TurnAxis::vertical, 54).index, 8u);
}

TEST(WorstCell, HoldsACardOnASheetThatIsNotFull) {
  for (const std::size_t cards : {1u, 2u, 5u}) {
    EXPECT_EQ(worst_cell({}, advice_for_nine(), TurnAxis::vertical, cards).index, cards - 1);
  }
}

/// A page of one grey that covers a card of 63 x 88 mm and much around it.
PdfPage grey_page() {
  PdfPage page{parse_paper("a4"), {}};
  page.images.push_back({0, {0, 0}, 100, 140, 0, {-50, -70, 50, 70}});
  return page;
}

TEST(Preview, ShowsAllOfTheBandAndSaysWhatItIs) {
  const testing_support::ScratchFolder scratch;
  for (const double grey : {0.0, 128.0, 255.0}) {
    Raster art;
    art.width_px = art.height_px = 20;
    art.samples.assign(20 * 20 * 3, static_cast<std::uint16_t>(grey));
    const auto file = scratch / "art.png";
    write_file_atomically(file, encode_png(art), true);
    const Deck deck{{{}}, {read_coded_image(file)}};
    const PdfPage page = grey_page();
    const CardPlace place{{-31.5, -44, 31.5, 44}, {-31.5, -44, 31.5, 44}, 0};
    Notices notices;
    const auto files = write_preview({.deck = deck,
                                      .recto = page,
                                      .verso = page,
                                      .front = place,
                                      .back = place,
                                      .misses = {{1, 1}, {4, 4}},
                                      .band = "The cut falls inside the band.",
                                      .corner_radius_mm = 0.0,
                                      .folder = scratch.path(),
                                      .replace = true},
                                     notices);
    ASSERT_EQ(files.size(), 5U);
    const Raster seen = read_raster(files.back());
    const auto px = [](double mm) { return static_cast<int>(mm / 25.4 * 300); };
    EXPECT_NEAR(seen.width_px, px(63 + 2 * 5), 1) << "a millimetre beyond a band of 4 mm";
    EXPECT_GT(seen.height_px, px(88 + 2 * 5) + 40);
    const int row = px(50);
    EXPECT_EQ(seen.at(px(0.5), row, 0), grey) << "beyond the band";
    EXPECT_LT(seen.at(px(1), row, 0) + 0, 60 + 0.5 * grey) << "its outer edge";
    EXPECT_LT(seen.at(px(5), row, 0), 20) << "the cut";
    // Stripes lighter and darker than the art are seen on any art, but for the end of the scale.
    int darker = 0;
    int lighter = 0;
    for (int x = px(1.3); x < px(4.7); ++x) {
      darker += seen.at(x, row, 0) < grey - 50 ? 1 : 0;
      lighter += seen.at(x, row, 0) > grey + 50 ? 1 : 0;
    }
    EXPECT_GT(std::max(darker, lighter), 10);
    int words = 0;
    for (int y = px(98.5); y < seen.height_px; ++y) {
      for (int x = 0; x < seen.width_px; ++x) words += seen.at(x, y, 0) < 100 ? 1 : 0;
    }
    EXPECT_GT(words, 500);
  }
}

}  // namespace
}  // namespace versolay
