// The command `target`: a print-ready PDF of numbered two-sided sheets, and its geometry.
#pragma once

#include <filesystem>
#include <optional>
#include <set>
#include <string>

#include "versolay/result.h"
#include "versolay/target.h"

namespace versolay {

struct TargetRequest {
  Paper paper = parse_paper("a4");
  Turn turn = Turn::long_edge;
  int sheets = 10;
  std::string label;               // printed on every page; may be empty
  std::optional<std::string> run;  // 4 characters; a random one otherwise
  std::set<int> fed_round;         // sheets whose pages are drawn turned half round, both sides
  std::filesystem::path pdf;
  std::optional<std::filesystem::path> geometry;
  std::optional<std::filesystem::path> print_card;  // one page to lie beside the printer
  bool replace = false;
};

struct TargetReport {
  TargetGeometry geometry;
  std::string run;
  int pages = 0;
  Notices warnings;
};

/// Writes the files of the request. Throws Error on a bad request or a failed write; then nothing
/// of the request has been written.
TargetReport run_target(const TargetRequest& request);

}  // namespace versolay
