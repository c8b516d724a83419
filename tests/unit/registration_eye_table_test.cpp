#include <gmock/gmock.h>

#include "registration/eye_table.h"
#include "support/findings.h"

namespace versolay {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::SizeIs;

const std::string kHead =
    "paper,a4\nturn,long-edge\ntable,holes\n"
    "sheet,hole,front across,front down,back across,back down\n";
const std::string kValuesHead =
    "paper;a4\nturn;short-edge\n"
    "sheet;left or right mm;up or down mm;turned degrees;known to mm\n";

EyeTable read(const std::string& text, const EyeTarget& given = {}) {
  return read_eye_table(text, "table.csv", given);
}

std::string error_of(const std::string& text, const EyeTarget& given = {}) {
  try {
    read(text, given);
  } catch (const Error& e) {
    return e.what();
  }
  return "";
}

TEST(EyeTable, TheTemplateIsReadBackWithNothingInIt) {
  for (const EyeMethod method : {EyeMethod::holes, EyeMethod::verniers, EyeMethod::values}) {
    for (const char separator : {',', ';', '\t'}) {
      const EyeTable table =
          read(eye_table_template(method, parse_paper("200x280mm"), Turn::short_edge, 3, separator,
                                  {"Read the numbers.", "Leave empty what you cannot read."}));
      EXPECT_EQ(table.method, method);
      EXPECT_EQ(table.paper, parse_paper("200x280mm"));
      EXPECT_EQ(table.turn, Turn::short_edge);
      EXPECT_THAT(table.rows, SizeIs(0));
      EXPECT_THAT(table.notices, SizeIs(0));
    }
  }
}

TEST(EyeTable, NumbersMayBeWrittenTheWayPeopleWriteThem) {
  const EyeTable table = read(kValuesHead +
                              "1;0,42 left;0.1;+0,05;\n2;0.30mm right;\xE2\x88\x92"
                              "0,2;0.1\xC2\xB0;0,1 mm\n"
                              "3;0.4 mm left;0.3 UP;0.02 anticlockwise;\n");
  ASSERT_THAT(table.rows, SizeIs(3));
  EXPECT_EQ(table.rows[0].numbers[0], -0.42);
  EXPECT_EQ(table.rows[0].numbers[1], 0.1);
  EXPECT_EQ(table.rows[0].numbers[2], 0.05);
  EXPECT_EQ(table.rows[0].numbers[3], std::nullopt);
  EXPECT_EQ(table.rows[1].numbers[0], 0.30);
  EXPECT_EQ(table.rows[1].numbers[1], -0.2);
  EXPECT_EQ(table.rows[1].numbers[2], 0.1);
  EXPECT_EQ(table.rows[1].numbers[3], 0.1);
  EXPECT_EQ(table.rows[2].numbers[1], -0.3);
  EXPECT_EQ(table.rows[2].numbers[2], -0.02);
}

TEST(EyeTable, QuotedDecimalCommasAndLowerCaseNamesAreUnderstood) {
  const EyeTable table = read(kHead + "1,p3,\"13,2\",\"22,7\",33.1,42.8\n");
  ASSERT_THAT(table.rows, SizeIs(1));
  EXPECT_EQ(table.rows[0].place, "P3");
  EXPECT_EQ(table.rows[0].numbers[0], 13.2);
  EXPECT_EQ(table.rows[0].line, 5);
}

TEST(EyeTable, RowsFilledInHalfAreLeftOutAndNamed) {
  const EyeTable table = read(kHead + "1,P1,13.2,22.7,33.1,\n1,P2,13,23,33,43\n1,P3,,,,\n");
  EXPECT_THAT(table.rows, SizeIs(1));
  ASSERT_THAT(table.notices, SizeIs(1));
  EXPECT_EQ(table.notices[0].code, "row_incomplete");
  EXPECT_EQ(testing_support::fact<std::int64_t>(table.notices[0], "row"), 5);
  EXPECT_EQ(testing_support::fact(table.notices[0], "place"), "P1");
}

TEST(EyeTable, SwappedCellsAreToldByTheirNumbers) {
  EXPECT_THAT(error_of(kHead + "1,P1,22.7,13.2,33.1,42.8\n"),
              HasSubstr("number_of_another_column row=5 column=front across number=22.7"));
  EXPECT_THAT(error_of(kHead + "1,P1,33.1,22.7,13.2,42.8\n"),
              HasSubstr("other_column=back across"));
}

TEST(EyeTable, WhatCannotBeRightIsToldAllAtOnceWithItsRows) {
  EXPECT_THAT(
      error_of(kHead + "1,P1,thirteen,23,33,43\nx,P1,13,23,33,43\n1,P9,13,23,33,43\n"
                       "1,P2,13,23,33,43\n1,P2,13,23,33,43\n1,P4,13,2,23,0,33,43\n"),
      AllOf(HasSubstr("cell_not_a_number row=5 column=front across cell=thirteen"),
            HasSubstr("row_without_sheet row=6"),
            HasSubstr("row_place_unknown row=7 kind=hole place=P9 first=P1 last=P8"),
            HasSubstr("row_twice row=9 sheet_named=1 place=P2"), HasSubstr("row_too_long row=10")));
}

TEST(EyeTable, ANumberIsNotToldTwiceWhatItsSignIs) {
  EXPECT_THAT(error_of(kValuesHead + "1;-0.42 left;0;0;\n"), HasSubstr("cell_not_a_number"));
}

TEST(EyeTable, VernierNumbersAreThoseOfTheirScale) {
  const std::string head = "paper,a4\nturn,long-edge\nsheet,scale,reading\n";
  EXPECT_THAT(read(head + "1,V1,3.4\n1,V2,7.1\n").rows, SizeIs(2));
  EXPECT_THAT(error_of(head + "1,V1,7.1\n"), HasSubstr("least=1 most=6"));
  EXPECT_THAT(error_of(head + "1,V2,3.4\n"), HasSubstr("least=5 most=10"));
}

TEST(EyeTable, PaperAndTurnComeFromTheTableOrFromOutsideAndMustAgree) {
  const std::string bare = "sheet,hole,front across,front down,back across,back down\n";
  EXPECT_THAT(error_of(bare), HasSubstr("table_setting_missing setting=paper"));
  EXPECT_THAT(error_of(bare, {parse_paper("a4"), {}}),
              HasSubstr("table_setting_missing setting=turn"));
  const EyeTable table = read(bare, {parse_paper("a3"), Turn::short_edge});
  EXPECT_EQ(table.paper.name, "a3");
  EXPECT_THAT(error_of(kHead, {parse_paper("a3"), {}}),
              HasSubstr("table_setting_differs setting=paper"));
  EXPECT_THAT(error_of("paper,a4\nturn,sideways\n" + bare),
              HasSubstr("table_setting_unknown setting=turn value=sideways"));
}

TEST(EyeTable, AnythingElseIsRefusedWithTheWayOut) {
  EXPECT_THAT(error_of(""), HasSubstr("no_titles"));
  EXPECT_THAT(error_of("name,price\nink,30\n"), HasSubstr("unknown_titles"));
}

}  // namespace
}  // namespace versolay
