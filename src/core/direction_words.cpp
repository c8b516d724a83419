#include "core/direction_words.h"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

#include "core/numbers.h"

namespace versolay {
namespace {

constexpr double kSmallestMm = 0.005;
constexpr double kSmallestMrad = 0.005;

double degrees_from(double mrad) { return mrad * 1e-3 * 180 / std::numbers::pi; }

/// Without its sign, and never "0.00" for a number that is not zero: "0.004", or "under 0.001".
std::string digits_words(double value, int decimals) {
  const double size = std::abs(value);
  const double smallest = 0.5 * std::pow(10.0, -decimals);
  if (size == 0 || size >= smallest) return format_fixed(size, decimals);
  if (size >= smallest / 10) return format_fixed(size, decimals + 1);
  return "under " + format_fixed(std::pow(10.0, -decimals - 1), decimals + 1);
}

}  // namespace

std::string mm_words(double mm) { return digits_words(mm, 2) + " mm"; }
std::string degrees_words(double mrad) { return digits_words(degrees_from(mrad), 3) + " degrees"; }

std::string length_words(double mm, double ppi) {
  return fmt::format("{} ({} px at {} ppi)", mm_words(mm),
                     format_number(artwork_px_from_mm(std::abs(mm), ppi), 1),
                     format_number(ppi, 0));
}

std::string angle_words(double mrad) {
  return fmt::format("{} mrad ({})", digits_words(mrad, 2), degrees_words(mrad));
}

const char* across_words(double dx) { return dx > 0 ? "right" : "left"; }
const char* along_words(double dy) { return dy > 0 ? "down" : "up"; }
const char* sense_words(double th) { return th > 0 ? "clockwise" : "anticlockwise"; }

std::string landing_words(const Registration& r) {
  std::string text;
  if (std::abs(r.dx_mm) >= kSmallestMm) {
    text = fmt::format("{} too far {}", mm_words(r.dx_mm), across_words(r.dx_mm));
  }
  if (std::abs(r.dy_mm) >= kSmallestMm) {
    text += fmt::format("{}{} too far {}", text.empty() ? "" : " and ", mm_words(r.dy_mm),
                        along_words(r.dy_mm));
  }
  if (text.empty()) text = "within 0.01 mm of its place";
  if (std::abs(r.rotation_mrad) >= kSmallestMrad) {
    text +=
        fmt::format(", turned {} {}", angle_words(r.rotation_mrad), sense_words(r.rotation_mrad));
  }
  return text + ", seen from the back";
}

std::string shift_in_words(double dx_mm, double dy_mm, double ppi) {
  std::string mm;
  std::string px;
  const auto add = [&](double value, const char* positive, const char* negative) {
    if (std::abs(value) < kSmallestMm) return;
    const char* joint = mm.empty() ? "" : " and ";
    mm += fmt::format("{}{} mm {}", joint, format_fixed(std::abs(value), 2),
                      value > 0 ? positive : negative);
    px += fmt::format("{}{} px", joint, format_fixed(artwork_px_from_mm(std::abs(value), ppi), 1));
  };
  add(dx_mm, "to the right", "to the left");
  add(dy_mm, "down", "up");
  if (mm.empty()) return "not at all";
  return fmt::format("{} ({} at {} ppi)", mm, px, format_number(ppi, 0));
}

std::string correction_in_words(const Registration& mean, double ppi) {
  const Registration move = registration_from(mean.page_from_wanted());
  std::string text;
  if (std::abs(move.dx_mm) >= kSmallestMm) {
    text = length_words(move.dx_mm, ppi) + " to the " + across_words(move.dx_mm);
  }
  if (std::abs(move.dy_mm) >= kSmallestMm) {
    text += (text.empty() ? "" : " and ") + length_words(move.dy_mm, ppi) + " " +
            along_words(move.dy_mm);
  }
  if (!text.empty()) text = "moved " + text;
  if (std::abs(move.rotation_mrad) >= kSmallestMrad) {
    text += (text.empty() ? "turned " : ", turned ") + angle_words(move.rotation_mrad) + " " +
            sense_words(move.rotation_mrad);
  }
  return text.empty() ? "left where they are" : text + ", seen from the back";
}

}  // namespace versolay
