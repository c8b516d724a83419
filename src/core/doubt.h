// Readings whose numbers may be wrong, as opposed to merely less precise.
#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "versolay/result.h"

namespace versolay {

/// The codes of all warnings that cast doubt: two things should agree, and do not.
inline constexpr std::array<std::string_view, 15> kDoubts = {
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

/// Does a warning of this kind mean that the numbers of the sheet themselves may be wrong, because
/// two things that should agree do not and nothing shows which of them is at fault? Only this table
/// decides; profile and advise use it.
bool casts_doubt(std::string_view code);

/// The codes of these warnings that cast doubt, each once, in their order.
std::vector<std::string> doubts_in(const Notices& warnings);

}  // namespace versolay
