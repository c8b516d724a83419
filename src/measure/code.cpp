#include "measure/code.h"

#include <ZXing/ReadBarcode.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "measure/reduce.h"

namespace versolay {
namespace {

constexpr double kReachMm = 32.0;
constexpr double kEnoughPxPerMm = 9.0;  // 4.5 pixels a module of 0.5 mm

/// Characters beyond ASCII become '?': no code of ours has any.
std::string ascii(const std::wstring& text) {
  std::string narrow;
  for (const wchar_t c : text) narrow += c > 0 && c < 128 ? static_cast<char>(c) : '?';
  return narrow;
}

bool agrees(const PageIdentity& identity, const TagMeaning& tag) {
  return identity.side == tag.side && tag_slot_of_sheet(identity.sheet) == tag.slot;
}

}  // namespace

std::optional<PageIdentity> read_code_near(const GreyImage& scan, const TagSighting& tag) {
  const Eigen::Vector2d px_per_mm = tag.px_per_mm();
  const Point<ScanPx> centre = tag.centre();
  const Eigen::Vector2d reach_px = kReachMm * px_per_mm;
  const int x0 = std::max(0, static_cast<int>(centre.x - reach_px.x()));
  const int y0 = std::max(0, static_cast<int>(centre.y - reach_px.y()));
  const int x1 = std::min(scan.width, static_cast<int>(centre.x + reach_px.x()));
  const int y1 = std::min(scan.height, static_cast<int>(centre.y + reach_px.y()));
  const Reduction by{std::max(1, static_cast<int>(px_per_mm.x() / kEnoughPxPerMm)),
                     std::max(1, static_cast<int>(px_per_mm.y() / kEnoughPxPerMm))};
  if (x1 - x0 < 16 * by.across || y1 - y0 < 16 * by.down) return std::nullopt;

  const GreyImage part = reduced_part(scan, x0, y0, x1 - x0, y1 - y0, by);
  const ZXing::ImageView view(part.pixels.data(), part.width, part.height, ZXing::ImageFormat::Lum);
  const auto hints = ZXing::DecodeHints()
                         .setFormats(ZXing::BarcodeFormat::QRCode)
                         .setTryHarder(true)
                         .setTryRotate(false);  // the finder patterns need no help
  const ZXing::Result found = ZXing::ReadBarcode(view, hints);
  if (!found.isValid()) return std::nullopt;
  const auto identity = identity_from_code_text(ascii(found.text()));
  if (!identity || !agrees(*identity, tag.meaning)) return std::nullopt;
  return identity;
}

}  // namespace versolay
