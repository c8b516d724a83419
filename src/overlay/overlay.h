// An annotated picture of a scan: what was found, what was left out, and why.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "measure/reduce.h"
#include "measure/side_reading.h"
#include "scan/scan.h"
#include "versolay/result.h"
#include "versolay/sheet_readings.h"

namespace versolay {

/// A scan made small, to be drawn upon when its sheet is known: 2 MB at most.
struct ScanThumbnail {
  std::string name;
  GreyImage grey;
  Reduction by;  // as many scan pixels became one
};
/// At most 1600 pixels on the long side, with square pixels where the scan is read.
ScanThumbnail thumbnail_of(const Scan& scan, const Result<SideReading>& reading);

/// What became of the sheet that a scan belongs to: the reading that was made of it, or why not.
using SheetVerdict = Result<SheetReading>;

/// 8-bit red, green, blue, row by row.
struct OverlayPicture {
  int width_px = 0;
  int height_px = 0;
  std::vector<std::uint8_t> rgb;
};

/// The scan, page upright and paler, under a headline that says whether it was used, and
/// above a key to the signs:
///   thin circle       a ring that was used; its thin line: what the scanner does to the picture
///   cross, diamond    a ring that was left out, or not found
///   double circle     a hole; its thick arrow: its deviation from the fit of the whole sheet
///   bar               a place on the edge of the paper
///   box with words    what could not be read, and why
/// Shapes and words carry all the information; colours only help, and print as different greys.
/// @param verdict  nullptr when there is no result for the sheet: the scan itself was refused.
OverlayPicture draw_overlay(const ScanThumbnail& picture, const Result<SideReading>& reading,
                            const SheetVerdict* verdict);

}  // namespace versolay
