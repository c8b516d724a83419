// From the readings of both sides of one sheet to its registration, with the self-checks.
#pragma once

#include <vector>

#include "measure/side_reading.h"
#include "versolay/sheet_readings.h"

namespace versolay {

/// All scans of one sheet: one or several of each side.
struct SheetScans {
  std::vector<SideReading> recto;
  std::vector<SideReading> verso;
};

enum class DatumChoice { automatic, holes, edges };

/// Registration of the sheet from what was read on both sides. Several scans of a side are combined
/// feature by feature. Automatic: holes and edges together when they agree, holes alone when they
/// do not, whichever is there otherwise; SheetReading::datum says which, and datum_notes why.
/// Precondition: all scans are of one sheet (same run and number).
/// @return a refusal with one of the codes other_side_missing, same_side_twice, half_missing,
///         repeat_differs, scanner_stretches, hole_contrast, holes_outside, holes_cut_off,
///         holes_unreadable, white_background, no_holes, edge_contrast, edges_cut_off,
///         too_few_features, not_same_sheet, holes_against_edges, wrong_turn, holes_disagree,
///         edges_disagree, paper_size_differs, offset_too_large, printed_scale.
Result<SheetReading> register_sheet(const SheetScans& scans,
                                    DatumChoice choice = DatumChoice::automatic);

}  // namespace versolay
