#include "words/direction_words.h"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

#include "core/numbers.h"
#include "words/display_unit.h"
#include "words/translation.h"

namespace versolay {
namespace {

constexpr double kSmallestSaidMm = 0.005;
constexpr double kSmallestMrad = 0.005;

double degrees_from(double mrad) { return mrad * 1e-3 * 180 / std::numbers::pi; }

/// Without its sign, and never "0.00" for a number that is not zero: "0.004", or "under 0.001".
std::string digits_words(double value, int decimals) {
  const double size = std::abs(value);
  const double smallest = 0.5 * std::pow(10.0, -decimals);
  if (size == 0 || size >= smallest) return format_fixed(size, decimals);
  if (size >= smallest / 10) return format_fixed(size, decimals + 1);
  return tr("under {}", format_fixed(std::pow(10.0, -decimals - 1), decimals + 1));
}

std::string nearest(double mm, const DisplayUnit& unit) {
  return fmt::format("{} {}", digits_words(unit.per_mm * mm, unit.decimals(2)), unit.name);
}

std::string rounded_up(double mm, const DisplayUnit& unit) {
  const int decimals = unit.decimals(2);
  const double fine = std::pow(10.0, decimals);
  return fmt::format(
      "{} {}", format_fixed(std::ceil(unit.per_mm * mm * fine - 1e-6) / fine, decimals), unit.name);
}

/// A distance and its pixels: what people asked for comes first.
template <class Words>
std::string with_pixels(const Words& words, double mm, const std::string& pixels,
                        const DisplayUnit& unit) {
  return unit.units == Units::px ? fmt::format("{} ({})", pixels, words(mm, DisplayUnit{}))
                                 : fmt::format("{} ({})", words(mm, unit), pixels);
}

std::string pixel_digits(double mm, double ppi) {
  return format_number(artwork_px_from_mm(std::abs(mm), ppi), 1);
}

/// The one, or the two with "and" between.
std::string both(const std::string& one, const std::string& other) {
  return one.empty() ? other : tr("{} and {}", one, other);
}

}  // namespace

std::string distance_words(double mm, const DisplayUnit& unit) { return nearest(mm, unit); }
std::string distance_words_up(double mm, const DisplayUnit& unit) { return rounded_up(mm, unit); }

std::string oversize_length_words(double mm, int px, const DisplayUnit& unit) {
  return with_pixels(rounded_up, mm, fmt::format("{} px", px), unit);
}

std::string oversize_length_words(double mm, int px, double ppi, const DisplayUnit& unit) {
  return with_pixels(rounded_up, mm, tr("{} px at {} ppi", px, format_number(ppi, 0)), unit);
}

std::string length_words(double mm, double ppi, const DisplayUnit& unit) {
  return with_pixels(nearest, mm,
                     tr("{} px at {} ppi", pixel_digits(mm, ppi), format_number(ppi, 0)), unit);
}

std::string short_length_words(double mm, double ppi, const DisplayUnit& unit) {
  return with_pixels(nearest, mm, pixel_digits(mm, ppi) + " px", unit);
}

std::string angle_words(double mrad) {
  return tr("{} degrees", digits_words(degrees_from(mrad), 3));
}

const char* across_words(double dx) { return dx > 0 ? tr("right") : tr("left"); }
const char* along_words(double dy) { return dy > 0 ? tr("down") : tr("up"); }
const char* sense_words(double th) { return th > 0 ? tr("clockwise") : tr("anticlockwise"); }

std::string landing_words(const Registration& r, const DisplayUnit& unit) {
  std::string text;
  if (std::abs(r.dx_mm) >= kSmallestSaidMm) {
    text = tr("{} too far {}", distance_words(r.dx_mm, unit), across_words(r.dx_mm));
  }
  if (std::abs(r.dy_mm) >= kSmallestSaidMm) {
    text = both(text, tr("{} too far {}", distance_words(r.dy_mm, unit), along_words(r.dy_mm)));
  }
  if (text.empty()) text = tr("within 0.01 mm of its place");
  if (std::abs(r.rotation_mrad) >= kSmallestMrad) {
    text += tr(", turned {} {}", angle_words(r.rotation_mrad), sense_words(r.rotation_mrad));
  }
  return tr("{}, seen from the back", text);
}

std::string shift_in_words(double dx_mm, double dy_mm, double ppi, const DisplayUnit& unit) {
  std::string ways;
  const auto add = [&](double value, const char* positive, const char* negative) {
    if (std::abs(value) < kSmallestSaidMm) return;
    ways =
        both(ways, short_length_words(value, ppi, unit) + " " + (value > 0 ? positive : negative));
  };
  add(dx_mm, tr("to the right"), tr("to the left"));
  add(dy_mm, tr("down"), tr("up"));
  return ways.empty() ? tr("not at all") : ways;
}

std::string correction_in_words(const Registration& mean, double ppi, const DisplayUnit& unit) {
  const Registration move = registration_from(mean.page_from_wanted());
  std::string text;
  if (std::abs(move.dx_mm) >= kSmallestSaidMm) {
    text = tr("{} to the {}", length_words(move.dx_mm, ppi, unit), across_words(move.dx_mm));
  }
  if (std::abs(move.dy_mm) >= kSmallestSaidMm) {
    text = both(text, length_words(move.dy_mm, ppi, unit) + " " + along_words(move.dy_mm));
  }
  if (!text.empty()) text = tr("moved {}", text);
  if (std::abs(move.rotation_mrad) >= kSmallestMrad) {
    const std::string turned =
        tr("turned {} {}", angle_words(move.rotation_mrad), sense_words(move.rotation_mrad));
    text = text.empty() ? turned : text + ", " + turned;
  }
  return text.empty() ? tr("left where they are") : tr("{}, seen from the back", text);
}

}  // namespace versolay
