#include <gmock/gmock.h>

#include "report/run_card.h"

namespace versolay {
namespace {

using ::testing::HasSubstr;
using ::testing::StartsWith;

TEST(RunCard, HoldsEveryRunWithItsSetUpAndTheCautions) {
  const RunOrderRequest request{{"rear tray", "front tray"}, 3, 7};
  const std::string text = run_card_text(request, run_order(request));
  EXPECT_THAT(text, HasSubstr("[ ] run 1, sheet 1: "));
  EXPECT_THAT(text, HasSubstr("[ ] run 6, sheet 6: "));
  EXPECT_THAT(text, HasSubstr("never feed torn, punched or damp sheets"));
  EXPECT_THAT(run_card_pdf(request, run_order(request)), StartsWith("%PDF-"));
}

}  // namespace
}  // namespace versolay
