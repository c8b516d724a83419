#include "core/doubt.h"

#include <algorithm>
#include <array>

namespace versolay {
namespace {

constexpr std::array<std::string_view, 15> kDoubts = {
    "back_of_other_sheet",   // by the order of the scans
    "datums_disagree",       // holes against edges
    "edges_disagree",        // one edge against itself, front and back
    "edge_places_left_out",  // too many of them
    "hole_off",              // one hole against the others
    "hole_shapes_differ",    // one hole against itself, front and back
    "holes_disagree",        // all of them
    "paper_size_differs",    // the sheet against itself, front and back
    "reading_off",           // by eye
    "readings_disagree",     // all readings by eye
    "repeat_differs",        // two scans of a side
    "scan_lines_lost",       // a part of a scan against the rest
    "scan_smeared",          // thin marks against wide holes
    "scanner_stretches",     // scans of two sides
    "shape_implausible",     // a shear that no printer has
};

}  // namespace

bool casts_doubt(std::string_view code) {
  return std::find(kDoubts.begin(), kDoubts.end(), code) != kDoubts.end();
}

std::vector<std::string> doubts_in(const Notices& warnings) {
  std::vector<std::string> doubts;
  for (const Notice& n : warnings) {
    if (casts_doubt(n.code) && std::find(doubts.begin(), doubts.end(), n.code) == doubts.end()) {
      doubts.push_back(n.code);
    }
  }
  return doubts;
}

}  // namespace versolay
