// Runs another program for its output, without a shell: arguments are passed unchanged.
#pragma once

#include <string>
#include <vector>

namespace versolay {

struct HelperResult {
  bool found = true;      // the program is installed
  bool finished = false;  // on its own and within the limits
  int exit_code = -1;
  std::string output;  // stdout and stderr
};

/// What a helper may take: a file that was made to do harm must not hold up the others.
struct HelperLimits {
  int seconds = 20;     // of CPU; it is stopped after ten times as long on the clock
  int megabytes = 500;  // of address space
};

/// Runs arguments[0], looked up in PATH, with numbers and words in the C locale.
/// It is stopped at its limits, or when it prints more than 16 MiB.
HelperResult run_helper(const std::vector<std::string>& arguments, const HelperLimits& limits);

}  // namespace versolay
