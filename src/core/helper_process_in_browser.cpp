// A browser has no other programs.
#include "core/helper_process.h"

namespace versolay {

HelperResult run_helper(const std::vector<std::string>&, const HelperLimits&) {
  return {.found = false};
}

}  // namespace versolay
