// The command `compare`: two or more profiles or readings against the first of them.
#pragma once

#include <filesystem>
#include <vector>

#include "profile/comparison.h"
#include "profile/foretold_turn.h"

namespace versolay {

struct CompareRequest {
  std::vector<std::filesystem::path> files;  // profiles or readings; the first is what the others
                                             // are compared with
  bool paired = false;
};

struct CompareReport {
  std::vector<Comparison> comparisons;
  std::vector<ForetoldTurn> foretold;
  std::vector<ChanceTest> chance;
  Notices warnings;
};

/// Throws Error when a file is missing or is neither a profile nor readings.
Result<CompareReport> run_compare(const CompareRequest& job);

}  // namespace versolay
