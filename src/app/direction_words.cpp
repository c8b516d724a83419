#include "app/direction_words.h"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

#include "core/numbers.h"

namespace versolay {
namespace {

constexpr double kSmallestMm = 0.005;
constexpr double kSmallestDegrees = 0.001;

}  // namespace

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

std::string turn_in_words(double rotation_mrad) {
  const double degrees = rotation_mrad * 1e-3 * 180 / std::numbers::pi;
  if (std::abs(degrees) < kSmallestDegrees) return {};
  return fmt::format("turned {} degrees {}", format_fixed(std::abs(degrees), 3),
                     degrees > 0 ? "clockwise" : "anticlockwise");
}

std::string correction_in_words(const Registration& mean, double ppi) {
  const Registration move = registration_from(mean.page_from_wanted());
  const std::string turn = turn_in_words(move.rotation_mrad);
  return "moved " + shift_in_words(move.dx_mm, move.dy_mm, ppi) +
         (turn.empty() ? "" : ", " + turn) + ", seen from the back";
}

}  // namespace versolay
