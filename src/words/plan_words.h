// The text of a plan: how many sheets, and the order of an experiment.
#pragma once

#include <string>

#include "core/text_table.h"
#include "profile/experiment_plan.h"
#include "words/display_unit.h"

namespace versolay {

struct PlanWords {
  std::string advice;
  TextTable sheets;
  std::string notes;
  TextTable choices;  // sheets that are fed once or several times; none with an experiment
  std::string choices_notes;
};
PlanWords plan_words(const Plan& planned, const DisplayUnit& unit = {});

}  // namespace versolay
