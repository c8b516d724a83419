// The command `plan`: sheets against oversize, and the run card of an experiment.
#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "profile/experiment_plan.h"

namespace versolay {

struct PlanRequest {
  SampleSizeRequest plan;
  std::optional<std::filesystem::path> profile;  // takes the spread from there
  CardSize card{63, 88};                         // at whose corners the spread counts
  RunOrderRequest runs;                          // no set-ups: no experiment
  std::filesystem::path out;                     // run card, .pdf or .txt; empty: none
  bool replace = false;
};

/// Throws Error when the profile is missing or malformed, an option out of range, or the run card
/// cannot be written.
/// @return a refusal when the profile holds no spread.
Result<Plan> run_plan(const PlanRequest& job);

}  // namespace versolay
