#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/stat.h>

#include <filesystem>

#include "core/csv.h"
#include "core/expect.h"
#include "core/files.h"
#include "core/utf8.h"
#include "support/message_of.h"
#include "support/scratch_folder.h"
#include "versolay/result.h"

namespace versolay {
namespace {

using testing::HasSubstr;
using testing_support::message_of;
using testing_support::ScratchFolder;

// Opening a named pipe waits for whoever writes into it.
TEST(RequireFile, RefusesPipesAndDevicesUnopened) {
  ScratchFolder scratch;
  const auto pipe = scratch / "pipe";
  ASSERT_EQ(mkfifo(pipe.c_str(), 0600), 0);
  EXPECT_THAT(message_of([&] { (void)read_file(pipe); }), HasSubstr("is_a_pipe"));
  EXPECT_THAT(message_of([] { (void)read_file("/dev/zero"); }), HasSubstr("is_a_pipe"));
  EXPECT_THAT(message_of([&] { (void)read_file(scratch / "."); }), HasSubstr("is_a_folder"));
}

TEST(CheckOutput, RefusesWhatIsNoFileAndALinkEvenIfItMayReplace) {
  ScratchFolder scratch;
  ASSERT_EQ(mkfifo((scratch / "pipe").c_str(), 0600), 0);
  write_file_atomically(scratch / "file", "old", false);
  std::filesystem::create_symlink(scratch / "file", scratch / "link");
  std::filesystem::create_symlink(scratch / "nowhere", scratch / "dangling");
  for (const bool replace : {false, true}) {
    EXPECT_THAT(message_of([&] { check_output(scratch / "pipe", replace); }),
                HasSubstr("output_is_a_pipe"));
    EXPECT_THAT(message_of([&] { check_output(scratch / "link", replace); }),
                HasSubstr("output_is_a_link"));
    EXPECT_THAT(message_of([&] { check_output(scratch / "dangling", replace); }),
                HasSubstr("output_is_a_link"));
    EXPECT_THAT(message_of([&] { check_output("/dev/null", replace); }),
                HasSubstr("output_is_a_pipe"));
  }
  EXPECT_THAT(message_of([&] { write_file_atomically(scratch / "link", "new", true); }),
              HasSubstr("output_is_a_link"));
  EXPECT_EQ(read_file(scratch / "file"), "old");
}

TEST(CheckOutputs, SeesThroughOtherSpellings) {
  ScratchFolder scratch;
  std::filesystem::create_directory(scratch / "a");
  std::filesystem::create_directory_symlink(scratch / "a", scratch / "b");
  const auto same = [&](const std::filesystem::path& one, const std::filesystem::path& other) {
    return !message_of([&] { check_outputs({one, "", other, ""}, true); }).empty();
  };
  EXPECT_TRUE(same(scratch / "x.pdf", scratch / "a" / ".." / "x.pdf"));
  EXPECT_TRUE(same(scratch / "a" / "x.pdf", scratch / "b" / "x.pdf"));
  EXPECT_TRUE(same("x.pdf", "./x.pdf"));
  EXPECT_FALSE(same(scratch / "x.pdf", scratch / "y.pdf"));
}

// ECMA-48; Unicode Standard Annex 9 (marks of direction).
TEST(Shown, WritesOutWhatWouldMoveTheTextOfATerminal) {
  EXPECT_EQ(shown("a\033[31mred\a"), "a\\x1B[31mred\\x07");
  EXPECT_EQ(shown("cr\rbs\b"), "cr\\x0Dbs\\x08");
  EXPECT_EQ(shown("\xC2\x9B"
                  "31m"),
            "\\x9B31m");
  EXPECT_EQ(shown("gpj.\xE2\x80\xAE"
                  "exe"),
            "gpj.\\u202Eexe");
  EXPECT_EQ(shown("bad \xFF byte"), "bad \\xFF byte");
  EXPECT_EQ(shown("two\nlines\tand \xC3\xA9 \xE9\xB3\xA5"),
            "two\nlines\tand \xC3\xA9 \xE9\xB3\xA5");
}

// Common practice against formulas in tables from elsewhere: an apostrophe makes it a text.
TEST(CsvLine, MakesATextOfWhatASpreadsheetWouldRun) {
  EXPECT_EQ(csv_line({"=1+1", "+x", "@SUM(A1)", "-cmd"}, ','), "'=1+1,'+x,'@SUM(A1),'-cmd");
  EXPECT_EQ(csv_line({"-0.25", "1e-3", "heron"}, ','), "-0.25,1e-3,heron");
}

TEST(Expect, ThrowsWhatEndsInASentence) {
  expect(true);
#ifndef VERSOLAY_CHECKED
  EXPECT_THROW(expect(false), std::logic_error);
#endif
}

}  // namespace
}  // namespace versolay
