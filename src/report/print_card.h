// A card for use beside the printer while the target is printed and scanned: one page, boxes to
// tick, pictures of the turn.
#pragma once

#include <string>

#include "target/target_geometry.h"

namespace versolay {

struct PrintCardRequest {
  Paper paper;  // of the target
  Turn turn = Turn::long_edge;
  int sheets = 10;
  std::string run;
  int passes = 1;  // of every sheet, on each side
};

/// One page of A4. Throws Error as render_pdf does.
std::string print_card_pdf(const PrintCardRequest& request);

}  // namespace versolay
