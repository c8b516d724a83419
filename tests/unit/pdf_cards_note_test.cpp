#include <gmock/gmock.h>

#include "pdf/cards_note.h"
#include "pdf/pdf_document.h"
#include "support/pdf_render.h"
#include "versolay/result.h"

namespace versolay {
namespace {

using testing::HasSubstr;
using testing_support::run;
using testing_support::ScratchFolder;

CardsNote two_cards() {
  return {17,
          {{{-63, -88, 0, 0}, {0, 0}, {-63.5, -88.4, 0, 0.4}},
           {{0, -88, 63, 0}, {0.12, -0.05}, {0, -88.4, 63.5, 0.4}}}};
}

PdfDocument empty_page(std::optional<CardsNote> note) {
  PdfDocument document{"deck", Turn::long_edge, {{parse_paper("a4"), {}}}};
  document.cards = std::move(note);
  return document;
}

TEST(CardsNote, IsReadAsItWasWritten) {
  const auto read = noted_cards(render_pdf(empty_page(two_cards())), "deck.pdf");
  ASSERT_TRUE(read);
  EXPECT_EQ(read->cards, 17);
  ASSERT_EQ(read->backs.size(), 2u);
  for (std::size_t i = 0; i < 2; ++i) {
    EXPECT_EQ(read->backs[i].card, two_cards().backs[i].card);
    EXPECT_EQ(read->backs[i].moved_mm, two_cards().backs[i].moved_mm);
    EXPECT_EQ(read->backs[i].covered, two_cards().backs[i].covered);
  }
}

TEST(CardsNote, StandsInTheInformationThatOtherProgramsShow) {
  const ScratchFolder scratch;
  const auto file = scratch / "deck.pdf";
  write_file_atomically(file, render_pdf(empty_page(two_cards())), true);
  EXPECT_THAT(run("mutool show '" + file.string() + "' trailer/Info").output,
              HasSubstr("versolay.cards/1"));
}

TEST(CardsNote, APdfWithoutOneHasNone) {
  EXPECT_FALSE(noted_cards(render_pdf(empty_page(std::nullopt)), "deck.pdf"));
}

TEST(CardsNote, ASpoiltOneIsNone) {
  // A digit of the number of cards, a rectangle inside out, another version: the same length, so
  // that the file stays a PDF; unpacked, so that it can be seen.
  const ScratchFolder scratch;
  const auto packed = scratch / "packed.pdf", unpacked = scratch / "unpacked.pdf";
  write_file_atomically(packed, render_pdf(empty_page(two_cards())), true);
  run("qpdf --object-streams=disable '" + packed.string() + "' '" + unpacked.string() + "'");
  const std::string good = read_file(unpacked);
  const auto with = [&](const std::string& is, const std::string& becomes) {
    std::string spoilt = good;
    const std::size_t at = spoilt.find(is);
    EXPECT_NE(at, std::string::npos) << is;
    EXPECT_EQ(is.size(), becomes.size());
    if (at != std::string::npos) spoilt.replace(at, is.size(), becomes);
    return noted_cards(spoilt, "deck.pdf").has_value();
  };
  EXPECT_TRUE(with("\"cards\":17", "\"cards\":18"));
  EXPECT_FALSE(with("\"cards\":17", "\"cards\":-7"));
  EXPECT_FALSE(with("\"cards\":17", "\"cards\":\"x"));
  EXPECT_FALSE(with("[-63.0,-88.0,0.0,0.0]", "[+63.0,-88.0,0.0,0.0]"));
  EXPECT_FALSE(with("[-63.0,-88.0,0.0,0.0]", "[ 63.0,-88.0,0.0,0.0]"));
  EXPECT_FALSE(with("versolay.cards/1", "versolay.cards/2"));
}

TEST(CardsNote, WhatIsNoPdfIsAnError) {
  EXPECT_THROW((void)noted_cards("no PDF at all", "deck.pdf"), Error);
}

}  // namespace
}  // namespace versolay
