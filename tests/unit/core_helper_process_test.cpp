// Other programs, run within limits.
#include <gtest/gtest.h>

#include "core/helper_process.h"

namespace versolay {
namespace {

TEST(Helper, ThatIsNotInstalledIsNotFound) {
  EXPECT_FALSE(run_helper({"versolay-no-such-program"}, {}).found);
}

TEST(Helper, ThatTakesTooLongIsStopped) {
  EXPECT_FALSE(run_helper({"sh", "-c", "while :; do :; done"}, {1, 500}).finished);
  EXPECT_FALSE(run_helper({"sleep", "60"}, {0, 500}).finished);
}

TEST(Helper, ThatTakesTooMuchMemoryIsStopped) {
  const HelperResult result =
      run_helper({"dd", "if=/dev/zero", "of=/dev/null", "bs=600M", "count=1"}, {20, 500});
  EXPECT_NE(result.exit_code, 0);
}

TEST(Helper, GivesOutputAndExitCode) {
  const HelperResult result = run_helper({"sh", "-c", "echo $LC_ALL; exit 3"}, {});
  EXPECT_TRUE(result.finished);
  EXPECT_EQ(result.exit_code, 3);
  EXPECT_EQ(result.output, "C\n");
}

}  // namespace
}  // namespace versolay
