#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "layout/grid.h"
#include "report/cut_card.h"

namespace versolay {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::SizeIs;

CutCardRequest request(const char* paper, CardSize card, double gutter_mm) {
  GridRequest grid;
  grid.paper = parse_paper(paper);
  grid.card = card;
  grid.gutter_mm = gutter_mm;
  grid.blocks = 1;
  CutCardRequest r;
  r.job = "Meadow birds";
  r.grid = fit_grid(grid).value();
  r.plan = plan_cuts(r.grid);
  r.sheet = grid.paper;
  return r;
}

std::vector<Text> texts_of(const PdfPage& page) {
  std::vector<Text> texts;
  for (const Shape& shape : page.drawing) {
    if (const auto* text = std::get_if<Text>(&shape)) texts.push_back(*text);
  }
  return texts;
}

/// Of the numbers of the cuts that are in the table.
std::vector<std::string> first_cells(const PdfPage& page) {
  std::vector<std::string> cells;
  for (const Text& text : texts_of(page)) {
    if (text.align == Align::right && text.bold && text.size_mm < 3.3) cells.push_back(text.utf8);
  }
  return cells;
}

TEST(CutCard, IsOnePageForNineCards) {
  EXPECT_THAT(cut_card_pages(request("a4", {63, 88}, 2.0)), SizeIs(1));
}

TEST(CutCard, GoesOnAPageWithTitlesWhenThereAreManyCuts) {
  CutCardRequest r = request("a3", {44, 67}, 2.0);
  r.ticks = GuideTicks{0.25};
  const auto pages = cut_card_pages(r);
  ASSERT_THAT(pages, SizeIs(2));
  std::vector<std::string> cuts;
  for (const PdfPage& page : pages) {
    const auto cells = first_cells(page);
    cuts.insert(cuts.end(), cells.begin(), cells.end());
    for (const Text& text : texts_of(page)) {
      EXPECT_LE(text.at.y, page.paper.height_mm / 2 - 15) << text.utf8;
    }
  }
  for (const Cut& cut : r.plan.cuts) {
    EXPECT_THAT(cuts, Contains(std::to_string(cut.number)).Times(1));
  }
  if (!first_cells(pages[1]).empty()) {
    EXPECT_THAT(texts_of(pages[1]), Contains(testing::Field(&Text::utf8, HasSubstr("Fence"))));
  }
}

TEST(CutCard, ALongNameOfTheJobIsWrapped) {
  CutCardRequest r = request("a4", {63, 88}, 0.0);
  for (int i = 0; i < 6; ++i) r.job += " and all the birds of the shore";
  const auto pages = cut_card_pages(r);
  std::string title;
  for (const Text& text : texts_of(pages[0])) {
    if (text.size_mm == 5.0) title += text.utf8 + " ";
  }
  EXPECT_THAT(title, HasSubstr("and all the birds of the shore and"));
  EXPECT_EQ(title.find("\u2026"), std::string::npos);
}

std::string all_words(const std::vector<PdfPage>& pages) {
  std::string words;
  for (const PdfPage& page : pages) {
    for (const Text& text : texts_of(page)) words += text.utf8 + " ";
  }
  return words;
}

TEST(CutCard, SaysWhetherToLaminateBeforeOrAfterTheSheetIsHalved) {
  CutCardRequest whole = request("a4", {63, 88}, 0.0);
  EXPECT_THAT(all_words(cut_card_pages(whole)), HasSubstr("before any cut: whole sheets"));
  GridRequest grid;
  grid.paper = parse_paper("a3");
  grid.card = {63, 88};
  CutCardRequest halves;
  halves.grid = fit_grid(grid).value();
  halves.plan = plan_cuts(halves.grid);
  halves.sheet = grid.paper;
  ASSERT_TRUE(halves.plan.halving);
  halves.look_through = look_through_size(0.7);
  const auto pages = cut_card_pages(halves);
  EXPECT_THAT(pages, SizeIs(1));
  const std::string words = all_words(pages);
  EXPECT_THAT(words, HasSubstr("(297 x 210 mm)"));
  EXPECT_THAT(words, HasSubstr("make cut 1 first"));
  EXPECT_THAT(words, HasSubstr("rollers are hot"));
}

TEST(CutCard, RoundsTheCornersLastWithACaution) {
  const std::string words = all_words(cut_card_pages(request("a4", {63, 88}, 0.0)));
  const std::size_t corners = words.find("Round corners");
  ASSERT_NE(corners, std::string::npos);
  EXPECT_GT(corners, words.find("Fence:"));
  EXPECT_THAT(words.substr(corners), HasSubstr("fingers out of the slot"));
  EXPECT_THAT(words.substr(corners), HasSubstr("manual"));
}

}  // namespace
}  // namespace versolay
