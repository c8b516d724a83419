// Frames of the simulation that exist nowhere else in the program.
//
// A sheet of paper has two physical sides. Each is described, like a page, as one looks at that
// side: x right, y down, mm, origin at the centre of the nominal sheet. A printer's pass puts a
// page on a side; a scanner looks at a side through its bed.
#pragma once

#include "versolay/frames.h"
#include "versolay/paper.h"

namespace versolay::rehearse {

struct SheetFrontMm {};  // the sheet, seen from the side printed first
struct SheetBackMm {};   // the same sheet, seen from the other side
struct SheetMm {};       // the sheet, seen from whichever side is at work
struct BedMm {};         // true mm on the glass, from the upper-left corner of the picture

/// The place on the front straight behind a place of the back.
inline Affine<SheetFrontMm, SheetBackMm> front_from_back(TurnAxis axis) {
  return relabel_affine<SheetFrontMm, SheetBackMm>(recto_from_verso(axis));
}
inline Affine<SheetBackMm, SheetFrontMm> back_from_front(TurnAxis axis) {
  return relabel_affine<SheetBackMm, SheetFrontMm>(verso_from_recto(axis));
}

}  // namespace versolay::rehearse
