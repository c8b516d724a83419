// The command `advise`: a profile and a layout in, the verdict out.
#pragma once

#include <filesystem>

#include "layout/grid.h"
#include "versolay/advice.h"
#include "versolay/profile.h"

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
  Step step;
  AdviceRequest advice;  // its grid and step are filled in here
  int threads = 0;       // 0: one per core
  int populations = 0;   // of the simulation; 0: as many as it takes
};

struct AdviseReport {
  PrinterProfile profile;
  Advice advice;
};

/// @return a refusal when the cards do not fit on the paper, or the profile does not allow an
///         oversize to be promised.
/// Throws Error when the profile is missing or malformed, or an option is out of its range.
Result<AdviseReport> run_advise(const AdviseRequest& request);

}  // namespace versolay
