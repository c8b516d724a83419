// The command `rehearse`: simulates the whole job without printer or scanner, and keeps the truth.
#pragma once

#include <filesystem>
#include <optional>
#include <vector>

#include "app/rehearsed_sheets.h"
#include "core/progress.h"
#include "layout/artwork_place.h"
#include "rehearse/settings.h"
#include "versolay/layout.h"
#include "versolay/printer_profile.h"
#include "versolay/sheet_readings.h"

namespace versolay {

struct RehearseRequest {
  std::filesystem::path folder;                 // made when it does not exist
  std::optional<std::filesystem::path> target;  // the user's own PDF; nullopt: one is made
  /// Of the target that is made; nullopt: those of the printer's profile, else A4, long edge. The
  /// user's own says them itself.
  std::optional<Paper> paper;
  std::optional<Turn> turn;
  std::optional<int> sheets;  // calibration sheets; nullopt: 6, or all of the user's own
  int proof_sheets = 4;       // sheets of the corrected target
  std::optional<std::filesystem::path> printer_like;  // profile of the printer that is played
  /// Makes the same files every time; nullopt: another luck and other run codes every time.
  std::optional<std::uint64_t> seed;
  rehearse::RehearsalSettings settings;  // seed: not used; passes: of a target that is made
  bool replace = false;
};

/// How many of the cards on the proof sheets would show no sliver at an edge.
struct CleanCards {
  CardSize card;
  Reach oversize;  // that the profile advises
  int cards = 0;
  int clean = 0;
};

struct RehearseReport {
  Paper paper;
  std::uint64_t seed = 0;
  std::string run;  // of the target
  std::vector<RehearsedSheet> sheets;
  std::vector<RejectedInput> rejected;
  Registration mean_truth;  // of the simulated printer
  PrinterProfile profile;
  std::vector<RehearsedSheet> proof;  // sheets printed from the corrected target
  Registration proof_mean_truth;      // of the simulated printer with the correction
  std::optional<CleanCards> cards;    // nullopt: so few sheets allow no advice
};

/// Runs target, a simulated printer and scanner, measure, profile and correct in the folder:
///   target.pdf geometry.json            what is printed (no target.pdf where the user has one)
///   print/scans/*.png                   its scans; print/truth.json what really happened
///   readings.json profile.json          what was made of the scans alone
///   proof-target.pdf                    further sheets of the target, ...
///   corrected.pdf proof/...             ... their backs corrected, printed and scanned
/// The commands see the scans, never the truth.
/// @return a refusal of one of the commands, or as read_own_pdf; profile_paper, profile_turn where
///         the printer's profile is of another paper or turn than the target.
/// Throws Error when a file cannot be written, or the folder is not empty and `replace` is false.
Result<RehearseReport> run_rehearse(const RehearseRequest& request, const Progress& progress);

}  // namespace versolay
