#include <algorithm>
#include <stdexcept>

#include "core/numbers.h"
#include "pdf/scanned_pages.h"
#include "scan/decoders.h"
#include "scan/findings.h"
#include "scan/grey_rows.h"
#include "scan/pdf_pages.h"

namespace versolay::scan {
namespace {

using Colours = ScannedPicture::Colours;
using Packing = ScannedPicture::Packing;

/// What `step` gives; what it throws is a damaged file, but for Errors about scans.
template <class Step>
auto reading(const Place& place, const Step& step) {
  try {
    ScannedPages pages(place.path.string());
    return step(pages);
  } catch (const Error& error) {
    if (error.where() == place.text()) throw;
    throw Error(place.text(), findings::scanned_pdf_damaged());
  } catch (const std::runtime_error&) {
    throw Error(place.text(), findings::scanned_pdf_damaged());
  }
}

PdfPicture listed(const ScannedPicture& p) {
  return {.masked = p.kind != ScannedPicture::Kind::image,
          .cmyk = p.colours == Colours::cmyk,
          .width_px = p.width_px,
          .height_px = p.height_px,
          .components = p.channels(),
          .ppi_x = p.across_pt > 0 ? p.width_px * kPtPerInch / p.across_pt : 0.0,
          .ppi_y = p.down_pt > 0 ? p.height_px * kPtPerInch / p.down_pt : 0.0};
}

/// Grey of every value of a sample of up to 8 bits, or of every index.
GreyTable table_of(const ScannedPicture& p) {
  GreyTable table{};
  if (p.colours == Colours::palette) {
    for (std::size_t i = 0; i < p.palette.size() / 3; ++i) {
      table[i] = luma(p.palette[3 * i], p.palette[3 * i + 1], p.palette[3 * i + 2]);
    }
    return table;
  }
  const unsigned most = (1u << std::min(p.bits, 8)) - 1;
  for (unsigned v = 0; v <= most; ++v) {
    table[v] = static_cast<std::uint8_t>((p.inverted ? most - v : v) * 255 / most);
  }
  return table;
}

/// A row of stored samples, high bytes and bits first (ISO 32000-1, 8.9.5), in grey.
class RowConverter {
 public:
  explicit RowConverter(const ScannedPicture& picture)
      : bits_(picture.bits), rgb_(picture.colours == Colours::rgb), table_(table_of(picture)) {}

  void convert(const unsigned char* samples, std::uint8_t* grey, std::size_t pixels) {
    if (bits_ == 8 && !rgb_) {
      std::copy_n(samples, pixels, grey);
      return grey_by_table(grey, pixels, table_);
    }
    if (bits_ < 8 && !rgb_) return grey_from_packed(samples, bits_, grey, pixels, table_);
    bytes_of(samples, rgb_ ? 3 * pixels : pixels);
    if (rgb_) return grey_from_rgb(bytes_.data(), grey, pixels);
    std::copy_n(bytes_.data(), pixels, grey);
    grey_by_table(grey, pixels, table_);
  }

 private:
  void bytes_of(const unsigned char* samples, std::size_t n) {
    bytes_.resize(n);
    if (bits_ == 8) std::copy_n(samples, n, bytes_.data());
    if (bits_ < 8) grey_from_packed(samples, bits_, bytes_.data(), n, table_);
    if (bits_ < 16) return;
    for (std::size_t i = 0; i < n; ++i) {
      bytes_[i] = from_16_bits(256u * samples[2 * i] + samples[2 * i + 1]);
    }
  }

  int bits_;
  bool rgb_;
  GreyTable table_;
  std::vector<std::uint8_t> bytes_;
};

Scan from_rows(ScannedPages& pages, const Place& place, const ScannedPicture& picture,
               const ScanLimits& limits) {
  Scan scan = scan_of(place);
  add_plane(scan, place, picture.width_px, picture.height_px, limits);
  RowConverter rows(picture);
  int y = 0;
  const bool whole = pages.read_rows(place.page, [&](const unsigned char* samples) {
    rows.convert(samples, scan.grey.row(y++), static_cast<std::size_t>(picture.width_px));
  });
  if (!whole) throw Error(place.text(), findings::scanned_pdf_damaged());
  if (picture.bits == 1) warn_black_and_white(scan);
  return scan;
}

}  // namespace

PdfFacts pdf_facts(const Place& place) {
  return reading(place, [&](ScannedPages& pages) {
    PdfFacts facts{pages.pages(), {}};
    if (place.page > facts.pages) return facts;
    const ScannedPages::Size size = pages.size(place.page);
    facts.size = {size.width_pt, size.height_pt};
    return facts;
  });
}

std::vector<PdfPicture> pictures_on_pages(const Place& place, int first, int last) {
  return reading(place, [&](ScannedPages& pages) {
    std::vector<PdfPicture> pictures;
    for (int page = first; page <= last; ++page) {
      for (const ScannedPicture& p : pages.pictures(page)) pictures.push_back(listed(p));
    }
    return pictures;
  });
}

Scan decode_picture(const Place& place, const PdfPicture&, const ScanLimits& limits) {
  return reading(place, [&](ScannedPages& pages) {
    const ScannedPicture picture = pages.pictures(place.page).at(0);
    if (picture.packing == Packing::jpeg) {
      return decode_jpeg(pages.jpeg(place.page), place, limits);
    }
    if (picture.packing == Packing::other || picture.colours == Colours::other) {
      throw Error(place.text(), findings::scanned_pdf_packing());
    }
    return from_rows(pages, place, picture, limits);
  });
}

}  // namespace versolay::scan
