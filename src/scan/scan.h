// Scan files in, grey planes out.
//
// A scan is a PNG, JPEG or TIFF file, or a PDF of scanned pages; the last two may have several
// pages. The signature of a file decides what it is, its name does not. A file that is incomplete
// or damaged is an Error, never an image with a grey lower half: a mark that is measured on
// invented pixels is worse than no mark.
//
// Pixels are used as stored, row by row from the top, without rotation: the marks on the sheet
// determine its orientation. A file may also declare that it is stored as a mirror image (Exif and
// TIFF orientations 2, 4, 5 and 7). Rotation cannot correct that, so such an image is mirrored left
// to right; it may still have to be rotated, like any other.
//
// Colour becomes grey by the luma weights of ITU-R BT.601 (0.299, 0.587, 0.114). JPEG files store
// just that plane, so it costs nothing there, and the same page gives the same grey whatever the
// file format. It is led by green, the sharpest channel of most scanners; equal weights would let
// the colour fringes of displaced red and blue lines pull at the edges more.
//
// A page of a PDF must be one picture that fills it; that picture is extracted in the pixels of the
// scanner (never rendered, which would resample them) by the programs pdfinfo and pdfimages, which
// must be installed (Debian: poppler-utils); in a browser by qpdf, from JPEG or lossless
// compression only. Refused: pages cut into strips or layers, as in "compact" PDFs. A picture that
// the page shows mirrored is used as stored.
//
// Memory: the grey plane and at most 16 MiB. Exceptions, by their nature: a progressive JPEG needs
// all its coefficients (about 3 to 6 bytes per pixel), a TIFF with separate colour planes three
// of its strips. Scans that are read in parallel share a PlaneBudget, so that the planes of all of
// them together stay within it.
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "core/expect.h"
#include "scan/plane_budget.h"
#include "versolay/result.h"

namespace versolay {

namespace scan {
/// "scan3.tif, page 2", or "scan3.png" of a file with one page: a name in messages and files, the
/// same in every language.
std::string named_page(const std::string& file, int page, int pages);
}  // namespace scan

/// One plane of light values: 0 black, 255 white. Row by row from the top, without padding.
struct GreyImage {
  int width = 0;
  int height = 0;
  std::vector<std::uint8_t> pixels;  // width * height

  std::uint8_t at(int x, int y) const { return pixels[index(x, y)]; }
  std::uint8_t* row(int y) { return pixels.data() + index(0, y); }
  const std::uint8_t* row(int y) const { return pixels.data() + index(0, y); }

 private:
  std::size_t index(int x, int y) const {
    expect(x >= 0 && x < width && y >= 0 && y < height);
    return static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
           static_cast<std::size_t>(x);
  }
};

/// One page of a scan file.
struct Scan {
  GreyImage grey;
  /// What the file says of its resolution, pixels per inch along its rows and columns. A hint: many
  /// programs write a default. nullopt: nothing said, or outside 50..9600.
  std::optional<double> dpi_x;
  std::optional<double> dpi_y;
  std::string file;                  // the path, as it was given
  int page = 1;                      // 1 = first
  int pages = 1;                     // of the file
  std::shared_ptr<const void> room;  // in the budget of planes; see ScanLimits
  Notices warnings;                  // scan_black_and_white, scan_mirrored, scan_resolution_uneven

  /// For people: "scan3.tif, page 2", or "scan3.png" when the file has one page only.
  std::string name() const;
};

/// What is refused by its header, before any memory is taken for it.
struct ScanLimits {
  std::int64_t max_pixels = 280'000'000;  // A3 at 1200 dpi has 278 million
  std::int64_t max_bytes = 850'000'000;   // of the pixels unpacked: the same in 8-bit RGB
  int max_side = 100'000;                 // pixels
  PlaneBudget* budget = nullptr;          // waited for before the plane is taken; may be shared
};

/// Number of pages; 1 for PNG and JPEG. In a TIFF, thumbnails and masks do not count as pages.
/// Throws Error when the file cannot be read, or is not a PNG, JPEG, TIFF or PDF file.
int count_pages(const std::filesystem::path& path);

/// Reads one page, 1 <= page <= count_pages(path). Safe to call from several threads.
/// Throws Error, which names the file, the page and the remedy, when the page does not exist, is
/// incomplete, damaged, larger than `limits` or of a kind that is not read (CMYK).
Scan load_page(const std::filesystem::path& path, int page, const ScanLimits& limits = {});

/// Reads the pages one after the other; only the plane that `use` holds is alive.
/// Throws as load_page, and whatever `use` throws.
void for_each_page(const std::filesystem::path& path, const ScanLimits& limits,
                   const std::function<void(Scan&&)>& use);

}  // namespace versolay
