#include "registration/sheet_studies.h"

#include "registration/fed_round.h"
#include "registration/gauge_report.h"
#include "registration/other_turn.h"

namespace versolay {

Studies studies_of(const std::vector<SheetReading>& sheets, Turn turn, const Paper& paper) {
  return {gauge_of(sheets), other_turn_of(sheets, turn, paper), fed_round_of(sheets)};
}

}  // namespace versolay
