#include "scan/scan.h"

#include <sys/mman.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <new>

#include "core/numbers.h"
#include "scan/decoders.h"
#include "scan/findings.h"

namespace versolay {
namespace scan {

namespace {

/// A plane is touched once from end to end: with pages of 4 KiB, handing them out takes a tenth of
/// the time of reading a PNG. Only asked for; where the system has no large pages nothing changes.
void ask_for_large_pages(std::uint8_t* start, std::size_t size) {
  const auto page = static_cast<std::uintptr_t>(sysconf(_SC_PAGESIZE));
  const std::uintptr_t first = (reinterpret_cast<std::uintptr_t>(start) + page - 1) / page * page;
  const std::uintptr_t last = (reinterpret_cast<std::uintptr_t>(start) + size) / page * page;
  if (last > first) madvise(reinterpret_cast<void*>(first), last - first, MADV_HUGEPAGE);
}

}  // namespace

std::string named_page(const std::string& file, int page, int pages) {
  return pages > 1 ? file + ", page " + std::to_string(page) : file;
}

void check_page(const Place& place) {
  if (place.page >= 1 && place.page <= place.pages) return;
  throw Error(place.path.string(), findings::no_such_scan_page(place.pages, place.page));
}

Scan scan_of(const Place& place) {
  Scan scan;
  scan.file = place.path.string();
  scan.page = place.page;
  scan.pages = place.pages;
  return scan;
}

void add_plane(Scan& scan, const Place& place, int width, int height, const ScanLimits& limits) {
  GreyImage& plane = scan.grey;
  plane = {width, height, {}};
  if (limits.budget != nullptr) {
    scan.room = limits.budget->take(std::int64_t{width} * std::int64_t{height});
  }
  try {
    plane.pixels.reserve(static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
    ask_for_large_pages(plane.pixels.data(), plane.pixels.capacity());
    plane.pixels.resize(static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
  } catch (const std::bad_alloc&) {
    throw Error(place.text(), findings::no_memory_for_scan(width, height));
  }
}

void set_dpi(Scan& scan, double dpi_x, double dpi_y) {
  const auto believable = [](double dpi) { return dpi >= 50.0 && dpi <= 9600.0; };  // false for NaN
  if (!believable(dpi_x) || !believable(dpi_y)) return;
  scan.dpi_x = dpi_x;
  scan.dpi_y = dpi_y;
  if (std::abs(dpi_x - dpi_y) > 0.01 * std::max(dpi_x, dpi_y)) {
    scan.warnings.push_back(findings::scan_resolution_uneven(scan.name(), dpi_x, dpi_y));
  }
}

void undo_mirror(Scan& scan, int orientation) {
  if (orientation != 2 && orientation != 4 && orientation != 5 && orientation != 7) return;
  for (int y = 0; y < scan.grey.height; ++y) {
    std::reverse(scan.grey.row(y), scan.grey.row(y) + scan.grey.width);
  }
  scan.warnings.push_back(findings::scan_mirrored(scan.name()));
}

void warn_black_and_white(Scan& scan) {
  scan.warnings.push_back(findings::scan_black_and_white(scan.name()));
}

}  // namespace scan

using namespace scan;

std::string Scan::name() const {
  const std::string base = std::filesystem::path(file).filename().string();
  return scan::named_page(base, page, pages);
}

int count_pages(const std::filesystem::path& path) {
  const InputFile file(path);
  const Format format = file.format();
  if (format == Format::pdf) return count_pdf_pages(file, {path});
  return format == Format::tiff ? count_tiff_pages(file, {path}) : 1;
}

Scan load_page(const std::filesystem::path& path, int page, const ScanLimits& limits) {
  const InputFile file(path);
  const Format format = file.format();
  const Place place{path, page, 1};
  if (format == Format::tiff) return decode_tiff(file, place, limits);
  if (format == Format::pdf) return decode_pdf(file, place, limits);
  check_page(place);
  return format == Format::png ? decode_png(file, place, limits) : decode_jpeg(file, place, limits);
}

void for_each_page(const std::filesystem::path& path, const ScanLimits& limits,
                   const std::function<void(Scan&&)>& use) {
  const int pages = count_pages(path);
  for (int page = 1; page <= pages; ++page) use(load_page(path, page, limits));
}

}  // namespace versolay
