// The contents of the pages of a scanned PDF, from Poppler's programs; in a browser, which cannot
// run other programs, from qpdf.
#pragma once

#include <string>
#include <vector>

#include "scan/input_file.h"
#include "scan/scan.h"

namespace versolay::scan {

struct PdfPageSize {
  double width_pt = 0.0;
  double height_pt = 0.0;
};

struct PdfFacts {
  int pages = 0;
  PdfPageSize size;  // of the page that was asked for
};

struct PdfPicture {
  bool masked = false;  // a mask or a stencil: no pixels of its own
  bool cmyk = false;
  int width_px = 0;
  int height_px = 0;
  int components = 0;
  double ppi_x = 0.0;  // along its rows; whole numbers, perhaps; 0: not known
  double ppi_y = 0.0;
};

/// Of `place.page`. Throws Error.
PdfFacts pdf_facts(const Place& place);

/// In the order they are painted in. Throws Error.
std::vector<PdfPicture> pictures_on_pages(const Place& place, int first, int last);

/// The only picture of `place.page`, in its own pixels, with the size that was listed; resolution
/// and orientation of a file inside do not count. Throws Error.
Scan decode_picture(const Place& place, const PdfPicture& picture, const ScanLimits& limits);

}  // namespace versolay::scan
