#include "measure/code.h"

#include <ZXing/ReadBarcode.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "measure/reduce.h"

namespace versolay {
namespace {

/// One kind of code, and where it stands beside its tag.
struct CodeKind {
  ZXing::BarcodeFormat format;
  double reach_mm;          // from the middle of the tag
  double enough_px_per_mm;  // finer pictures are reduced
  bool try_rotated;
};
// 4.5 pixels a module of 0.5 mm; the finder patterns of a QR code need no help with rotation.
constexpr CodeKind kTargetCode{ZXing::BarcodeFormat::QRCode, 32.0, 9.0, false};
// 4.5 pixels a module of 0.36 mm.
constexpr CodeKind kWasteCode{ZXing::BarcodeFormat::DataMatrix, 19.0, 12.5, true};

/// Characters beyond ASCII become '?': no code of ours has any.
std::string ascii(const std::wstring& text) {
  std::string narrow;
  for (const wchar_t c : text) narrow += c > 0 && c < 128 ? static_cast<char>(c) : '?';
  return narrow;
}

bool agrees(const PageIdentity& identity, const TagMeaning& tag) {
  return identity.side == tag.side && tag_slot_of_sheet(identity.sheet) == tag.slot;
}

std::optional<std::string> text_near(const GreyImage& scan, const TagSighting& tag,
                                     const CodeKind& kind) {
  const Eigen::Vector2d px_per_mm = tag.px_per_mm();
  const Point<ScanPx> centre = tag.centre();
  const Eigen::Vector2d reach_px = kind.reach_mm * px_per_mm;
  const int x0 = std::max(0, static_cast<int>(centre.x - reach_px.x()));
  const int y0 = std::max(0, static_cast<int>(centre.y - reach_px.y()));
  const int x1 = std::min(scan.width, static_cast<int>(centre.x + reach_px.x()));
  const int y1 = std::min(scan.height, static_cast<int>(centre.y + reach_px.y()));
  const Reduction by{std::max(1, static_cast<int>(px_per_mm.x() / kind.enough_px_per_mm)),
                     std::max(1, static_cast<int>(px_per_mm.y() / kind.enough_px_per_mm))};
  if (x1 - x0 < 16 * by.across || y1 - y0 < 16 * by.down) return std::nullopt;

  const GreyImage part = reduced_part(scan, x0, y0, x1 - x0, y1 - y0, by);
  const ZXing::ImageView view(part.pixels.data(), part.width, part.height, ZXing::ImageFormat::Lum);
  const auto hints = ZXing::DecodeHints()
                         .setFormats(kind.format)
                         .setTryHarder(true)
                         .setTryRotate(kind.try_rotated);
  const ZXing::Result found = ZXing::ReadBarcode(view, hints);
  if (!found.isValid()) return std::nullopt;
  return ascii(found.text());
}

}  // namespace

std::optional<PageIdentity> read_code_near(const GreyImage& scan, const TagSighting& tag) {
  const auto text = text_near(scan, tag, kTargetCode);
  if (!text) return std::nullopt;
  const auto identity = identity_from_code_text(*text);
  if (!identity || !agrees(*identity, tag.meaning)) return std::nullopt;
  return identity;
}

std::optional<ProductionPage> read_waste_code_near(const GreyImage& scan, const TagSighting& tag) {
  const auto text = text_near(scan, tag, kWasteCode);
  if (!text) return std::nullopt;
  const auto page = production_page_from_digits(*text);
  if (!page || page->identity.side != tag.meaning.side) return std::nullopt;
  return page;
}

}  // namespace versolay
