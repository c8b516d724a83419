#include "images/exif.h"

#include <optional>

namespace versolay {
namespace {

enum Tag { kOrientation = 0x0112, kXResolution = 0x011a, kYResolution = 0x011b, kUnit = 0x0128 };
enum Type { kShort = 3, kRational = 5 };
enum Unit { kInch = 2, kCentimetre = 3 };

class Reader {
 public:
  explicit Reader(std::span<const std::uint8_t> bytes) : bytes_(bytes) {
    little_endian_ = bytes.size() >= 2 && bytes[0] == 'I' && bytes[1] == 'I';
  }
  std::optional<std::uint32_t> number(std::size_t offset, std::size_t length) const {
    if (offset > bytes_.size() || bytes_.size() - offset < length) return std::nullopt;
    std::uint32_t value = 0;
    for (std::size_t i = 0; i < length; ++i) {
      value = value << 8 | bytes_[offset + (little_endian_ ? length - 1 - i : i)];
    }
    return value;
  }
  double rational(std::size_t offset) const {
    const auto numerator = number(offset, 4);
    const auto denominator = number(offset + 4, 4);
    if (!numerator || !denominator || *denominator == 0) return 0.0;
    return static_cast<double>(*numerator) / *denominator;
  }

 private:
  std::span<const std::uint8_t> bytes_;
  bool little_endian_ = false;
};

}  // namespace

ExifHints read_exif(std::span<const std::uint8_t> tiff) {
  const Reader reader(tiff);
  ExifHints hints;
  const auto directory = reader.number(4, 4);
  if (reader.number(2, 2) != 42u || !directory) return hints;
  const std::size_t entries = reader.number(*directory, 2).value_or(0);
  std::uint32_t unit = kInch;
  for (std::size_t i = 0; i < entries; ++i) {
    const std::size_t entry = *directory + 2 + 12 * i;
    const auto tag = reader.number(entry, 2);
    const auto type = reader.number(entry + 2, 2);
    const auto offset = reader.number(entry + 8, 4);
    if (!tag || !type || !offset) break;
    const std::uint32_t short_value = reader.number(entry + 8, 2).value_or(0);
    if (*tag == kOrientation && *type == kShort && short_value >= 1 && short_value <= 8) {
      hints.orientation = static_cast<int>(short_value);
    }
    if (*tag == kUnit && *type == kShort) unit = short_value;
    if (*tag == kXResolution && *type == kRational) hints.dpi_x = reader.rational(*offset);
    if (*tag == kYResolution && *type == kRational) hints.dpi_y = reader.rational(*offset);
  }
  const double per_inch = unit == kInch ? 1.0 : unit == kCentimetre ? 2.54 : 0.0;
  hints.dpi_x *= per_inch;
  hints.dpi_y *= per_inch;
  if (hints.dpi_x == 72.0 && hints.dpi_y == 72.0) hints.dpi_x = hints.dpi_y = 0.0;
  return hints;
}

}  // namespace versolay
