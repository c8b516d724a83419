#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "artwork/raster.h"
#include "core/files.h"
#include "imposition/card_list.h"
#include "imposition/deck.h"
#include "support/image_files.h"
#include "support/pdf_render.h"
#include "support/scratch_folder.h"
#include "versolay/result.h"

namespace versolay {
namespace {

using testing::AllOf;
using testing::ElementsAre;
using testing::HasSubstr;
using testing_support::run;
using testing_support::ScratchFolder;
using testing_support::test_picture;

class DeckTest : public testing::Test {
 protected:
  void picture(const std::string& name, int shade) {
    Raster r = test_picture(63, 88, 3);
    r.at(0, 0, 0) = static_cast<std::uint16_t>(shade);
    write_file_atomically(scratch_ / name, encode_png(r), true);
  }
  void pictures(const std::string& folder, const std::vector<std::string>& names) {
    std::filesystem::create_directories(scratch_ / folder);
    for (const std::string& name : names) picture(folder + "/" + name, shade_++);
  }
  void list(const std::string& text) { write_file_atomically(scratch_ / "deck.csv", text, true); }
  std::vector<ListedCard> read() { return read_card_list(scratch_ / "deck.csv"); }
  std::string problem(const std::string& text) {
    list(text);
    try {
      (void)read();
    } catch (const Error& e) {
      return e.what();
    }
    return "";
  }

  ScratchFolder scratch_;
  int shade_ = 1;
};

TEST_F(DeckTest, ReadsNamedCardsWithQuantitiesBacksAndNotes) {
  pictures("art", {"wren.png", "tit, blue.png", "back.png"});
  list(
      "card,quantity,front,back,note\n"
      "# the meadow\n"
      "Wren,3,art/wren.png,art/back.png,\"small, \"\"quick\"\"\"\n"
      "\n"
      "Blue tit,,\"art/tit, blue.png\",,\n");
  const auto cards = read();
  ASSERT_EQ(cards.size(), 2U);
  EXPECT_EQ(cards[0].name, "Wren");
  EXPECT_EQ(cards[0].quantity, 3);
  EXPECT_EQ(cards[0].note, "small, \"quick\"");
  EXPECT_EQ(cards[0].back->path.filename(), "back.png");
  EXPECT_EQ(cards[1].quantity, 1);
  EXPECT_EQ(cards[1].front.path.filename(), "tit, blue.png");
  EXPECT_FALSE(cards[1].back.has_value());
}

TEST_F(DeckTest, EmptyCellsOfASpreadsheetAreNoColumns) {
  pictures("art", {"wren.png"});
  list("front;note;;\r\nart/wren.png;\"small, quick, brown, shy\";;\r\n;;;\r\n");
  const auto cards = read();
  ASSERT_EQ(cards.size(), 1U);
  EXPECT_EQ(cards[0].note, "small, quick, brown, shy");
}

// RFC 4180 sections 2.5 to 2.7, and what spreadsheets write: a byte order mark, CRLF, semicolons.
TEST_F(DeckTest, ReadsWhatSpreadsheetsWrite) {
  pictures("art", {"wren.png"});
  for (const char* text : {"\xEF\xBB\xBF"
                           "front;note\r\nart/wren.png;\"two\r\nlines\"\r\n",
                           "front\tnote\nart/wren.png\t\"two\r\nlines\"\n",
                           "front,note\nart/wren.png , \"two\r\nlines\""}) {
    list(text);
    const auto cards = read();
    ASSERT_EQ(cards.size(), 1U) << text;
    EXPECT_EQ(cards[0].note, "two\nlines");
    EXPECT_EQ(cards[0].name, "wren");
  }
}

TEST_F(DeckTest, TellsEveryFaultWithItsLine) {
  pictures("art", {"wren.png"});
  EXPECT_THAT(problem("front,colour\n"), HasSubstr("unknown_column line=1 column=colour"));
  EXPECT_THAT(problem("card\nWren\n"), HasSubstr("no_column_front"));
  EXPECT_THAT(problem("front,front\n"), HasSubstr("column_twice"));
  EXPECT_THAT(problem("front\n"), HasSubstr("list_is_empty"));
  EXPECT_THAT(problem("front,note\nart/wren.png,\"open\n"),
              HasSubstr("deck.csv: quotation_open line=2"));
  const std::string three = problem(
      "front,quantity\nart/wren.png,many\nnowhere.png,1\n\n\"a\nb.png\",1\nart/wren.png,1,2\n");
  EXPECT_THAT(three, HasSubstr("not_a_quantity line=2 quantity=many"));
  EXPECT_THAT(three, HasSubstr("listed_file_missing line=3 column=front name=nowhere.png"));
  EXPECT_THAT(three, HasSubstr("listed_file_missing line=5 column=front"));
  EXPECT_THAT(three, HasSubstr("too_many_fields line=7 fields=3"));
}

TEST_F(DeckTest, DealsTheCardsOfAListInItsOrder) {
  pictures("art", {"wren.png", "robin.png", "back.png", "other.png"});
  list("front,quantity,back\nart/wren.png,2,\nart/robin.png,1,art/other.png\n");
  const Deck deck = read_deck(scratch_ / "deck.csv", scratch_ / "art/back.png", {});
  ASSERT_EQ(deck.cards.size(), 3U);
  EXPECT_EQ(deck.images.size(), 4U);
  EXPECT_EQ(deck.cards[0].front, deck.cards[1].front);
  EXPECT_EQ(deck.cards[0].back, deck.cards[1].back);
  EXPECT_NE(deck.cards[2].back, deck.cards[0].back);
}

TEST_F(DeckTest, GroupsOfFrontsShareTheBackThatIsNamedAfterThem) {
  pictures("fronts/meadow", {"wren.png", "lark.png"});
  pictures("fronts/shore", {"tern.png"});
  pictures("backs", {"meadow.png", "shore.png"});
  const Deck deck = read_deck(scratch_ / "fronts", scratch_ / "backs", {});
  std::vector<std::string> names;
  for (const CardArt& card : deck.cards) names.push_back(card.name);
  EXPECT_THAT(names, ElementsAre("lark", "wren", "tern"));
  EXPECT_EQ(deck.cards[0].back, deck.cards[1].back);
  EXPECT_THAT(file_of(deck.images[deck.cards[0].back]), HasSubstr("meadow.png"));
  EXPECT_THAT(file_of(deck.images[deck.cards[2].back]), HasSubstr("shore.png"));
  std::filesystem::remove(scratch_ / "backs/shore.png");
  EXPECT_THROW((void)read_deck(scratch_ / "fronts", scratch_ / "backs", {}), Error);
}

/// Two pictures in one TIFF, joined by the tools of libtiff.
TEST_F(DeckTest, PagesOfATiffAreCardsAndCanBeNamed) {
  if (run("tiffcp -h").status == 127) GTEST_SKIP() << "tiffcp is not installed";
  std::filesystem::create_directories(scratch_ / "art");
  for (const int i : {1, 2}) {
    Raster r = test_picture(63, 88, 3);
    r.at(0, 0, 0) = static_cast<std::uint16_t>(i);
    write_file_atomically(scratch_ / ("page" + std::to_string(i) + ".tif"), encode_tiff(r), true);
  }
  const std::string folder = scratch_.path().string();
  ASSERT_EQ(run("cd '" + folder + "' && tiffcp page1.tif page2.tif art/birds.tif").status, 0);
  picture("back.png", 99);

  const Deck folder_deck = read_deck(scratch_ / "art", scratch_ / "back.png", {});
  ASSERT_EQ(folder_deck.cards.size(), 2U);
  EXPECT_EQ(folder_deck.cards[1].name, "birds page 2");
  EXPECT_THAT(file_of(folder_deck.images[folder_deck.cards[1].front]), HasSubstr("birds.tif#2"));
  EXPECT_NE(coded_data(std::get<CodedImage>(folder_deck.images[folder_deck.cards[0].front])),
            coded_data(std::get<CodedImage>(folder_deck.images[folder_deck.cards[1].front])));

  const Deck one = read_deck(scratch_ / "art/birds.tif#2", scratch_ / "art/birds.tif#1", {});
  ASSERT_EQ(one.cards.size(), 1U);
  EXPECT_EQ(std::get<CodedImage>(one.images[one.cards[0].front]).page, 2);

  list("front,back\nart/birds.tif#2,back.png\nart/birds.tif,back.png\n");
  try {
    (void)read_deck(scratch_ / "deck.csv", {}, {});
    FAIL();
  } catch (const Error& e) {
    EXPECT_THAT(e.what(), HasSubstr("page_not_named pages=2 name=birds.tif"));
  }
}

TEST_F(DeckTest, EqualPicturesUnderTwoNamesAreOneImage) {
  pictures("fronts", {"a.png"});
  std::filesystem::copy_file(scratch_ / "fronts/a.png", scratch_ / "fronts/b.png");
  picture("back.png", 99);
  const Deck deck = read_deck(scratch_ / "fronts", scratch_ / "back.png", {});
  EXPECT_EQ(deck.cards.size(), 2U);
  EXPECT_EQ(deck.images.size(), 2U);
}

TEST_F(DeckTest, ACardFileThatChangesMeanwhileIsNoticed) {
  pictures("fronts", {"a.png", "b.png"});
  const Deck deck = read_deck(scratch_ / "fronts", scratch_ / "fronts/b.png", {});
  const auto& image = std::get<CodedImage>(deck.images[0]);
  EXPECT_TRUE(image.data.empty());  // the memory of a job does not grow with its pictures
  EXPECT_FALSE(coded_data(image).empty());
  picture("fronts/a.png", 200);
  EXPECT_THROW((void)coded_data(image), Error);
}

}  // namespace
}  // namespace versolay
