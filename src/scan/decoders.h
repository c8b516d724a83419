// One decoder per file format. Each reads from the start of `file` and throws Error only.
#pragma once

#include <string_view>

#include "scan/input_file.h"
#include "scan/scan.h"

namespace versolay::scan {

/// Whether resolution, orientation and number of pages in the file count. Of a picture out of a PDF
/// they do not: the page says where its picture goes.
enum class Hints { use, ignore };

Scan decode_png(const InputFile& file, const Place& place, const ScanLimits& limits);
Scan decode_jpeg(const InputFile& file, const Place& place, const ScanLimits& limits,
                 Hints hints = Hints::use);

/// A JPEG out of a PDF.
Scan decode_jpeg(std::string_view bytes, const Place& place, const ScanLimits& limits);

int count_tiff_pages(const InputFile& file, const Place& place);
/// `place.page` is the page to read; `place.pages` need not be known yet. Out of a PDF, `place` is
/// that of the PDF, and the file has one page.
Scan decode_tiff(const InputFile& file, Place place, const ScanLimits& limits,
                 Hints hints = Hints::use);

int count_pdf_pages(const InputFile& file, const Place& place);
/// As decode_tiff; other programs open the file by its name.
Scan decode_pdf(const InputFile& file, Place place, const ScanLimits& limits);

// What the decoders share once the pixels are there.

/// Throws Error unless the page exists.
void check_page(const Place& place);
/// Gives the scan an empty plane; waits for room in the budget. Throws Error (memory) naming the
/// place.
void add_plane(Scan& scan, const Place& place, int width, int height, const ScanLimits& limits);
/// Keeps a resolution that can be believed; see Scan::dpi_x.
void set_dpi(Scan& scan, double dpi_x, double dpi_y);
/// Undoes a mirrored orientation (Exif and TIFF numbering, 1..8; anything else counts as 1).
void undo_mirror(Scan& scan, int orientation);
void warn_black_and_white(Scan& scan);
/// A scan without pixels, of this place.
Scan scan_of(const Place& place);

}  // namespace versolay::scan
