#include "app/direction_words.h"

#include <cmath>

#include "app/words.h"

namespace versolay {

std::string correction_in_words(const Registration& mean, double ppi) {
  constexpr double kSmallest = 0.005;  // mm, mrad: less would read "0.00"
  const Registration move = registration_from(mean.page_from_wanted());
  std::string text;
  if (std::abs(move.dx_mm) >= kSmallest) {
    text = length_words(move.dx_mm, ppi) + (move.dx_mm > 0 ? " to the right" : " to the left");
  }
  if (std::abs(move.dy_mm) >= kSmallest) {
    text += (text.empty() ? "" : " and ") + length_words(move.dy_mm, ppi) +
            (move.dy_mm > 0 ? " down" : " up");
  }
  if (!text.empty()) text = "moved " + text;
  if (std::abs(move.rotation_mrad) >= kSmallest) {
    text += (text.empty() ? "turned " : ", turned ") + angle_words(move.rotation_mrad) +
            (move.rotation_mrad > 0 ? " clockwise" : " anticlockwise");
  }
  return text.empty() ? "left where they are" : text + ", seen from the back";
}

}  // namespace versolay
