#include "measure/code_reader.h"

#include <ZXing/ReadBarcode.h>

namespace versolay {
namespace {

std::string ascii(const std::wstring& text) {
  std::string narrow;
  for (const wchar_t c : text) narrow += c > 0 && c < 128 ? static_cast<char>(c) : '?';
  return narrow;
}

}  // namespace

std::optional<std::string> text_of_code(const GreyImage& picture, CodeKind kind) {
  const ZXing::ImageView view(picture.pixels.data(), picture.width, picture.height,
                              ZXing::ImageFormat::Lum);
  const bool qr = kind == CodeKind::qr;
  // The finder patterns of a QR code need no help with rotation.
  const auto hints =
      ZXing::DecodeHints()
          .setFormats(qr ? ZXing::BarcodeFormat::QRCode : ZXing::BarcodeFormat::DataMatrix)
          .setTryHarder(true)
          .setTryRotate(!qr);
  const ZXing::Result found = ZXing::ReadBarcode(view, hints);
  if (!found.isValid()) return std::nullopt;
  return ascii(found.text());
}

}  // namespace versolay
