// The picture that a scanner makes of one side of a sheet.
#pragma once

#include <cstdint>
#include <vector>

#include "rehearse/bed.h"
#include "rehearse/ink.h"
#include "rehearse/paper_sheet.h"

namespace versolay::rehearse {

/// 8-bit picture, row by row, `channels` (1 grey, 3 blue-green-red) bytes a pixel.
struct ScanImage {
  int width = 0;
  int height = 0;
  int channels = 1;
  std::vector<std::uint8_t> bytes;
};

/// A further pass that was printed on the side.
struct FurtherPrint {
  const PrintedPage* page = nullptr;
  Affine<SheetMm, PageMm> sheet_from_page;
};

/// Everything that a scanner sees of one side. The pointers are borrowed.
struct SideOnGlass {
  Side side = Side::recto;
  const PaperSheet* sheet = nullptr;
  const PrintedPage* page = nullptr;
  const PrintedPage* page_behind = nullptr;        // nullptr: nothing shines through
  Affine<SheetMm, PageMm> sheet_from_page;         // of this side
  Affine<SheetMm, PageMm> sheet_from_page_behind;  // of the other side, in that side's own view
  double page_width_mm = 0.0;
  double page_height_mm = 0.0;
  Pose pose;
  std::vector<FurtherPrint> further;
};

/// Forms the picture: every pixel is the mean over its square of the light from the place that
/// the bed maps it to; then the blur of the lens, the noise of the sensor and the grey scale.
/// @param stream  chooses this scan's noise, dust and textures
/// Rows are shared among `threads`; the result does not depend on their number.
ScanImage scan_side(const SideOnGlass& seen, const Bed& bed, const PaperSettings& paper,
                    const InkSettings& ink, const ScannerSettings& scanner, std::uint64_t seed,
                    std::uint64_t stream, int threads);

}  // namespace versolay::rehearse
