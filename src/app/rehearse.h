// The command `rehearse`: the whole job without a printer or a scanner, with the truth beside it.
#pragma once

#include <filesystem>
#include <vector>

#include "core/progress.h"
#include "rehearse/settings.h"
#include "versolay/profile.h"
#include "versolay/readings.h"

namespace versolay {

struct RehearseRequest {
  std::filesystem::path folder;  // made when it does not exist
  Paper paper = parse_paper("a4");
  Turn turn = Turn::long_edge;
  int sheets = 6;                        // calibration sheets
  int proof_sheets = 4;                  // sheets of the corrected target
  rehearse::RehearsalSettings settings;  // passes: of the calibration sheets
  bool replace = false;
};

/// One simulated sheet: what really happened to it, and what was read.
struct RehearsedSheet {
  int sheet = 0;
  Registration truth;
  std::optional<SheetReading> reading;  // nullopt: the sheet was rejected
};

struct RehearseReport {
  std::vector<RehearsedSheet> sheets;
  std::vector<RejectedInput> rejected;
  Registration mean_truth;  // of the simulated printer
  PrinterProfile profile;
  std::vector<RehearsedSheet> proof;  // sheets printed from the corrected target
  Registration proof_mean_truth;      // of the simulated printer with the correction
  Notices warnings;
};

/// Runs target, a simulated printer and scanner, measure, profile and correct in the folder:
///   target.pdf geometry.json            what is printed
///   print/scans/*.png                   its scans; print/truth.json what really happened
///   readings.json profile.json          what was made of the scans alone
///   proof-target.pdf                    further sheets of the target, ...
///   corrected.pdf proof/...             ... their backs corrected, printed and scanned
/// The commands see the scans, never the truth.
/// @return a refusal of one of the commands.
/// Throws Error when a file cannot be written, or the folder is not empty and `replace` is false.
Result<RehearseReport> run_rehearse(const RehearseRequest& request, const Progress& progress);

}  // namespace versolay
