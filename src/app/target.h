// The command `target`: a print-ready PDF of numbered two-sided sheets, and its geometry.
#pragma once

#include <filesystem>
#include <optional>
#include <set>
#include <string>

#include "target/target_geometry.h"
#include "versolay/registration.h"
#include "versolay/result.h"

namespace versolay {

struct TargetRequest {
  Paper paper = parse_paper("a4");
  Turn turn = Turn::long_edge;
  int sheets = 10;
  std::string label;               // printed on every page; may be empty
  std::optional<std::string> run;  // 4 characters; a random one otherwise
  int passes = 1;                  // of every sheet through the printer, on each side
  std::set<int> fed_round;         // sheets with both pages drawn rotated by 180 degrees
  std::filesystem::path pdf;
  std::optional<std::filesystem::path> geometry;
  /// One page to lie beside the printer. With passes it is written in any case, beside the PDF.
  std::optional<std::filesystem::path> print_card;
  /// Proof sheets: the backs moved by R^-1 of this mean, with a run of their own, so that a profile
  /// can take them in. Not with passes.
  std::optional<Registration> corrected_by;
  bool replace = false;
};

struct TargetReport {
  TargetGeometry geometry;
  std::string run;
  int pages = 0;
  std::optional<std::filesystem::path> print_card;
  Notices warnings;
};

/// Writes the files of the request. Throws Error on a bad request or a failed write; then nothing
/// of the request has been written.
TargetReport run_target(const TargetRequest& request);

}  // namespace versolay
