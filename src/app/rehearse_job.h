// The command `rehearse --job`: simulates printing and scanning a deck that is already laid out,
// and reports what its marks and cards show.
#pragma once

#include <filesystem>
#include <optional>
#include <vector>

#include "app/check.h"
#include "app/rehearsed_sheets.h"
#include "rehearse/settings.h"

namespace versolay {

struct RehearseJobRequest {
  std::filesystem::path folder;  // made when it does not exist
  std::filesystem::path job;     // the PDF that `impose` wrote, with marks in its waste
  /// What the job was corrected by: the readings are checked against it, and the printer is off as
  /// it says.
  std::optional<std::filesystem::path> profile;
  /// Another printer: off as this profile says. Without either, the usual simulated one.
  std::optional<std::filesystem::path> printer_like;
  std::optional<int> sheets;          // the first so many; nullopt: all
  std::optional<std::uint64_t> seed;  // nullopt: another luck every time
  rehearse::RehearsalSettings settings;
  bool replace = false;
};

/// The cards of one sheet, as they really came out.
struct RehearsedCards {
  int cards = 0;
  int clean = 0;              // without a sliver at an edge
  double worst_off_mm = 0.0;  // of the card that is worst off, at its farthest corner
};

struct RehearsedJobSheet {
  RehearsedSheet sheet;                 // its truth: what the correction left
  std::optional<RehearsedCards> cards;  // nullopt: the PDF does not say where they are
};

struct RehearseJobReport {
  Paper paper;
  std::uint64_t seed = 0;
  std::string run;
  std::vector<RehearsedJobSheet> sheets;
  std::vector<RejectedInput> rejected;
  Registration printer_mean;
  Registration landed_mean;          // of the sheets: what the correction left, in truth
  std::optional<CheckReport> check;  // nullopt: no profile was given, or see check_refused
  std::optional<Refusal> check_refused;
};

/// Writes into the folder print/scans/*.png, print/truth.json and readings.json. The profile is
/// left as it is: simulated sheets do not belong in it.
/// @return a refusal as read_own_pdf; profile_paper, profile_turn; when no sheet could be read.
/// Throws Error when a file is missing or cannot be written, or the folder is not empty and
/// `replace` is false.
Result<RehearseJobReport> run_rehearse_job(const RehearseJobRequest& request,
                                           const Progress& progress);

}  // namespace versolay
