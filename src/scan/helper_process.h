// Another program, run for its output. No shell is involved: arguments are passed as they are.
#pragma once

#include <string>
#include <vector>

namespace versolay::scan {

struct HelperResult {
  bool found = true;      // the program is installed
  bool finished = false;  // by itself and within the time allowed
  int exit_code = -1;
  std::string output;  // stdout and stderr
};

/// Runs arguments[0], looked up in PATH, with numbers and words in the C locale.
/// It is stopped after `seconds`, or when it prints more than 16 MiB.
HelperResult run_helper(const std::vector<std::string>& arguments, int seconds);

}  // namespace versolay::scan
