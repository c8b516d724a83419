#include "measure/code.h"

#include <ZXing/ReadBarcode.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "measure/reduce.h"

namespace versolay {
namespace {

constexpr double kTagSideModules = 8.0;
constexpr double kTagModuleMm = 0.9;  // the same in every design
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
  const double diagonal_px =
      std::hypot(tag.corners[2].x - tag.corners[0].x, tag.corners[2].y - tag.corners[0].y);
  const double px_per_mm = diagonal_px / (std::sqrt(2.0) * kTagSideModules * kTagModuleMm);
  const double centre_x = (tag.corners[0].x + tag.corners[2].x) / 2;
  const double centre_y = (tag.corners[0].y + tag.corners[2].y) / 2;
  const double reach_px = kReachMm * px_per_mm;
  const int x0 = std::max(0, static_cast<int>(centre_x - reach_px));
  const int y0 = std::max(0, static_cast<int>(centre_y - reach_px));
  const int x1 = std::min(scan.width, static_cast<int>(centre_x + reach_px));
  const int y1 = std::min(scan.height, static_cast<int>(centre_y + reach_px));
  const int factor = std::max(1, static_cast<int>(px_per_mm / kEnoughPxPerMm));
  if (x1 - x0 < 16 * factor || y1 - y0 < 16 * factor) return std::nullopt;

  const GreyImage part = reduced_part(scan, x0, y0, x1 - x0, y1 - y0, factor);
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
