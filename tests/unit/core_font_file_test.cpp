#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdlib>

#include "core/font_file.h"
#include "versolay/result.h"

namespace versolay {
namespace {

using testing::HasSubstr;

TEST(FontFile, SaysWhatToInstallWhenItIsMissing) {
  setenv("VERSOLAY_FONT_DIR", "/nowhere", 1);
  try {
    (void)font_file(false);
    ADD_FAILURE();
  } catch (const Error& e) {
    EXPECT_THAT(e.what(), HasSubstr("font_missing"));
    EXPECT_THAT(e.what(), HasSubstr("/nowhere"));
  }
  unsetenv("VERSOLAY_FONT_DIR");
}

}  // namespace
}  // namespace versolay
