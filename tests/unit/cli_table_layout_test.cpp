#include <gtest/gtest.h>

#include "cli/table_layout.h"

namespace versolay::cli {
namespace {

const TextTable kSheets = {{"sheet", "right(+) left(-)\nmm", "read from"},
                           {{"1", "+0.126 +-0.010", "4 punched holes"},
                            {"10", "-1.126 +-0.010", "2 punched holes, 12 edge places"}},
                           true};

TEST(TableLines, StandInColumnsWhereThereIsRoomAndInFiles) {
  const std::string columns =
      "sheet  right(+) left(-)  read from\n"
      "                     mm\n"
      "    1    +0.126 +-0.010  4 punched holes\n"
      "   10    -1.126 +-0.010  2 punched holes, 12 edge places";
  EXPECT_EQ(table_lines(kSheets, 0), columns);
  EXPECT_EQ(table_lines(kSheets, 80), columns);
}

TEST(TableLines, WrapTheWordsOfTheLastColumn) {
  EXPECT_EQ(table_lines(kSheets, 45),
            "sheet  right(+) left(-)  read from\n"
            "                     mm\n"
            "    1    +0.126 +-0.010  4 punched holes\n"
            "   10    -1.126 +-0.010  2 punched holes, 12\n"
            "                         edge places");
}

TEST(TableLines, BecomeBlocksWhereColumnsDoNotFit) {
  EXPECT_EQ(table_lines({kSheets.head, {kSheets.rows[0]}, true}, 30),
            "sheet 1\n"
            "  right(+) left(-) mm: +0.126\n"
            "  +-0.010\n"
            "  read from: 4 punched holes");
}

TEST(PrintedText, WrapsProseAndLaysOutTables) {
  PrintedText text = std::string("Two numbers in");
  text += " one table:\n";
  text += TextTable{{"a", "b"}, {{"1", "2"}}};
  text += "\nand more";
  EXPECT_EQ(text.laid_out(0), "Two numbers in one table:\na  b\n1  2\nand more");
  EXPECT_EQ(text.laid_out(20), "Two numbers in one\ntable:\na  b\n1  2\nand more");
}

}  // namespace
}  // namespace versolay::cli
