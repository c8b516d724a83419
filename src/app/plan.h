// The command `plan`: sheets against oversize, and the run card of an experiment.
#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "core/text_table.h"
#include "profile/plan.h"
#include "words/display_unit.h"

namespace versolay {

struct PlanRequest {
  SampleSizeRequest plan;
  std::optional<std::filesystem::path> profile;  // takes the spread from there
  CardSize card{63, 88};                         // at whose corners the spread counts
  RunOrderRequest runs;                          // no set-ups: no experiment
  std::filesystem::path out;                     // run card, .pdf or .txt; empty: none
  bool replace = false;
};

struct PlanReport {
  SampleSizePlan sheets;
  double sd_mm = 0.0;
  bool sd_is_measured = false;
  std::vector<Run> runs;
  RunPower power;
};

/// Throws Error when the profile is missing or malformed, an option out of range, or the run card
/// cannot be written.
/// @return a refusal when the profile holds no spread.
Result<PlanReport> run_plan(const PlanRequest& job);

struct PlanWords {
  std::string advice;
  TextTable sheets;
  std::string notes;
  TextTable choices;  // sheets that are fed once or several times
  std::string choices_notes;
};
PlanWords plan_words(const PlanRequest& job, const PlanReport& report,
                     const DisplayUnit& unit = {});

}  // namespace versolay
