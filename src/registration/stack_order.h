// Backs on the wrong sheets of a job, detected by the order of the scans.
//
// A job has no holes, and its sheets look the same: nothing on the paper shows that the back of
// sheet 4 is behind the front of sheet 3. But people who scan a stack scan the front and the back
// of each sheet one after the other. Where fronts and backs alternate like that and most pairs
// belong together, a pair that does not was printed like that.
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

/// For the production sheets among these scans; empty where their order is inconclusive.
std::vector<MisplacedBack> misplaced_backs(const std::vector<SideReading>& sides);

}  // namespace versolay
