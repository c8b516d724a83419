#include "rehearse/sensor.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace versolay::rehearse {
namespace {

constexpr float kTableSteps = 16384.0f;
constexpr std::array<float, 3> kTint = {0.955f, 0.985f, 1.0f};  // blue, green, red: warm paper

/// Light 0..1 to a grey value. Source of the curve  IEC 61966-2-1 (sRGB), from memory.
std::vector<std::uint8_t> grey_table(bool srgb) {
  std::vector<std::uint8_t> table;
  for (int i = 0; i <= static_cast<int>(kTableSteps); ++i) {
    const double light = i / static_cast<double>(kTableSteps);
    const double coded =
        light <= 0.0031308 ? 12.92 * light : 1.055 * std::pow(light, 1.0 / 2.4) - 0.055;
    table.push_back(static_cast<std::uint8_t>(std::lround(255.0 * (srgb ? coded : light))));
  }
  return table;
}

}  // namespace

void expose_row(const ScannerSettings& settings, int row, const float* light, ScanImage& image,
                Random random) {
  static const std::vector<std::uint8_t> grey = grey_table(true);
  static const std::vector<std::uint8_t> proportional = grey_table(false);
  const std::uint8_t* table = (settings.srgb_gamma ? grey : proportional).data();
  const auto slope = static_cast<float>(settings.illumination_slope);
  const auto vignetting = static_cast<float>(settings.vignetting);
  const auto noise = static_cast<float>(settings.noise);
  const float down = static_cast<float>(row + 0.5) / static_cast<float>(image.height) - 0.5f;
  std::uint8_t* to =
      image.bytes.data() + static_cast<std::size_t>(row) * image.width * image.channels;
  for (int x = 0; x < image.width; ++x) {
    const float across = static_cast<float>(x + 0.5) / static_cast<float>(image.width) - 0.5f;
    const float lamp =
        1.0f + slope * (0.6f * across + 0.4f * down) - vignetting * 4.0f * across * across;
    const float seen = light[x] * lamp;
    // Photon noise grows with the root of the light; a quarter of the noise at white is the
    // electronics' own.
    const float sd = noise * std::sqrt(0.06f + 0.94f * std::max(seen, 0.0f));
    for (int c = 0; c < image.channels; ++c) {
      float value = image.channels == 1 ? seen : seen * kTint[static_cast<std::size_t>(c)];
      if (noise > 0.0f) value += sd * random.quick_normal();
      *to++ = table[static_cast<int>(std::clamp(value, 0.0f, 1.0f) * kTableSteps + 0.5f)];
    }
  }
}

}  // namespace versolay::rehearse
