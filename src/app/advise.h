// The command `advise`: a profile and a layout in, the verdict out.
#pragma once

#include <filesystem>

#include "layout/grid.h"
#include "versolay/advice.h"
#include "versolay/profile.h"

namespace versolay {

struct AdviseRequest {
  std::filesystem::path profile;
  CardSize card;
  std::optional<GridShape> shape;  // nullopt: as many cards as fit
  double gutter_mm = 0.0;
  AdviceRequest advice;  // its grid is filled in here
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
Result<AdviseReport> advise_from_file(const AdviseRequest& request);

}  // namespace versolay
