// Backs on the wrong sheets of a job, told by the order of the scans.
//
// A job has no holes, and its sheets look alike from both sides: nothing on the paper says that the
// back of sheet 4 is behind the front of sheet 3. But whoever scans a stack scans the front and the
// back of a sheet one after the other. Where fronts and backs alternate like that and most pairs
// are of one sheet, a pair that is not was printed like that.
#pragma once

#include <string>
#include <vector>

#include "measure/side_reading.h"

namespace versolay {

struct MisplacedBack {
  std::string run;
  int sheet = 0;  // that the front says
  int back = 0;   // that the back behind it says
};

/// Of the production sheets among these scans; empty where their order does not tell.
std::vector<MisplacedBack> misplaced_backs(const std::vector<SideReading>& sides);

}  // namespace versolay
