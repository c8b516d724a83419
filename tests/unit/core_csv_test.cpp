#include <gmock/gmock.h>

#include "core/csv.h"
#include "versolay/result.h"

namespace versolay {
namespace {

using ::testing::AllOf;
using ::testing::ElementsAre;
using ::testing::HasSubstr;

std::string error_of(std::string_view text) {
  try {
    parse_csv(text, "table.csv");
  } catch (const Error& e) {
    return e.what();
  }
  return "";
}

TEST(Csv, CellsArePartedByWhateverPartsTheMostRows) {
  for (const char separator : {',', ';', '\t'}) {
    std::string text = "sheet|hole|a\n1|P1|13.2\n2|P2|\n";
    std::replace(text.begin(), text.end(), '|', separator);
    const auto rows = parse_csv(text, "table.csv");
    ASSERT_EQ(rows.size(), 3u);
    EXPECT_THAT(rows[1].cells, ElementsAre("1", "P1", "13.2"));
    EXPECT_THAT(rows[2].cells, ElementsAre("2", "P2", ""));
  }
}

TEST(Csv, DecimalCommasDoNotPartCellsWhereSemicolonsDo) {
  const auto rows = parse_csv("sheet;x;y\n1;13,2;22,7\n2;12,9;23,0\n", "table.csv");
  EXPECT_THAT(rows.at(1).cells, ElementsAre("1", "13,2", "22,7"));
}

TEST(Csv, ARowThatIsParsedDifferentlyDoesNotOutvoteTheOthers) {
  const auto rows = parse_csv("front;note\nwren.png;small, quick, brown, shy, loud\n", "table.csv");
  EXPECT_THAT(rows.at(1).cells, ElementsAre("wren.png", "small, quick, brown, shy, loud"));
}

TEST(Csv, RowsAndLinesOfTheTextAreCountedApart) {
  const auto rows = parse_csv("a,b\r\n\"two\r\nlines\",1\r\n\r\nc,2\r\n", "table.csv");
  ASSERT_EQ(rows.size(), 3u);
  EXPECT_EQ(rows[1].line, 2);
  EXPECT_EQ(rows[1].text_line, 2);
  EXPECT_EQ(rows[2].line, 4);
  EXPECT_EQ(rows[2].text_line, 5);
}

TEST(Csv, AByteOrderMarkAndLineEndsOfAnySystemAreNoPartOfTheCells) {
  for (const char* end : {"\n", "\r\n", "\r"}) {
    const std::string text = std::string("\xEF\xBB\xBFsheet,x") + end + "1,2" + end + end + "3,4";
    const auto rows = parse_csv(text, "table.csv");
    ASSERT_EQ(rows.size(), 3u);
    EXPECT_EQ(rows[0].cells.front(), "sheet");
    EXPECT_EQ(rows[2].line, 4);  // the empty row counts
    EXPECT_THAT(rows[2].cells, ElementsAre("3", "4"));
  }
}

// Source  RFC 4180, section 2, rules 5 to 7.
TEST(Csv, QuotedCellsMayHoldSeparatorsLineEndsAndDoubledQuotes) {
  const auto rows = parse_csv("\"a,b\",\"c \"\"d\"\"\"\r\n\"two\nlines\",2\r\n", "table.csv");
  EXPECT_THAT(rows.at(0).cells, ElementsAre("a,b", "c \"d\""));
  EXPECT_THAT(rows.at(1).cells, ElementsAre("two\nlines", "2"));
}

TEST(Csv, AQuotationMarkMayStandAloneInARemark) {
  const auto rows =
      parse_csv("front,note\n# the 5\" cards, later\na.png,\"# \"\"x\"\"\n# y\"\n", "t.csv");
  ASSERT_EQ(rows.size(), 3u);
  EXPECT_TRUE(rows[1].cells[0].starts_with("# the 5"));
  EXPECT_THAT(rows[2].cells, ElementsAre("a.png", "# \"x\"\n# y"));
  EXPECT_THAT(error_of("# 5\"\na,\"b\n"), HasSubstr("line=2"));
}

TEST(Csv, WhatIsWrittenIsReadBack) {
  const std::vector<std::string> cells = {"plain", "with, comma", "with \"quotes\"", ""};
  EXPECT_EQ(csv_line(cells, ','), "plain,\"with, comma\",\"with \"\"quotes\"\"\",");
  EXPECT_EQ(parse_csv(csv_line(cells, ',') + "\n", "t").at(0).cells, cells);
}

TEST(Csv, WhatIsNoTextTableIsRefused) {
  EXPECT_THAT(error_of("a,b\n1,\"2\n3,4\n"),
              AllOf(HasSubstr("table.csv"), HasSubstr("quotation_open line=2")));
  EXPECT_THAT(error_of("sheet,gr\xF6\xDF"
                       "e\n"),
              HasSubstr("not_utf8_table"));
  EXPECT_THAT(error_of(std::string_view("a\0b,c\n", 6)), HasSubstr("not_utf8_table"));
}

}  // namespace
}  // namespace versolay
