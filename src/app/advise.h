// The command `advise`: a profile and a layout in, the verdict out.
#pragma once

#include <filesystem>

#include "layout/grid.h"
#include "versolay/advice.h"
#include "versolay/printer_profile.h"

namespace versolay {

/// The smallest step in which a shift can be set.
struct Step {
  double size = 0.0;  // 0: any shift can be set
  bool px = false;    // pixels of the artwork, else mm
};

struct AdviseRequest {
  std::filesystem::path profile;
  CardSize card;
  std::optional<GridShape> shape;  // nullopt: as many cards as fit
  double gutter_mm = 0.0;
  std::optional<std::filesystem::path> recentre;  // readings of fresh sheets, for a job of the day
  Step step;
  AdviceRequest advice;  // its grid and step are filled in here
  int threads = 0;       // 0: one per core
  int populations = 0;   // of the simulation; 0: as many as it takes
};

struct AdviseReport {
  PrinterProfile profile;
  Advice advice;
};

/// The profile as it is kept, or recentred on readings of the day.
/// @fails  as recentred_profile; profile_paper, profile_turn.
Result<PrinterProfile> profile_for_job(const std::filesystem::path& profile,
                                       const std::optional<std::filesystem::path>& recentre);

/// @return a refusal when the cards do not fit on the paper, or the profile does not allow an
///         oversize to be promised.
/// Throws Error when the profile is missing or malformed, or an option is out of its range.
Result<AdviseReport> run_advise(const AdviseRequest& request);

}  // namespace versolay
