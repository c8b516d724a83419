#include "artwork/warp.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "core/expect.h"

namespace versolay {
namespace {

constexpr int kLobes = 3;
constexpr int kTaps = 2 * kLobes;
constexpr int kPhases = 4096;  // of a pixel: the place is off by 1/8192 px at most
using Weights = std::array<float, kTaps>;

double lanczos(double x) {
  if (std::abs(x) < 1e-12) return 1.0;
  if (std::abs(x) >= kLobes) return 0.0;
  const double a = std::numbers::pi * x;
  return kLobes * std::sin(a) * std::sin(a / kLobes) / (a * a);
}

/// Weights of the pixels -2..3 around a place that is `phase` / kPhases of a pixel after pixel 0.
std::array<Weights, kPhases + 1> weight_table() {
  std::array<Weights, kPhases + 1> table;
  for (int phase = 0; phase <= kPhases; ++phase) {
    std::array<double, kTaps> w;
    double sum = 0;
    for (int t = 0; t < kTaps; ++t) {
      w[static_cast<std::size_t>(t)] = lanczos(t - (kLobes - 1) - phase / double{kPhases});
      sum += w[static_cast<std::size_t>(t)];
    }
    for (int t = 0; t < kTaps; ++t) {
      const auto i = static_cast<std::size_t>(t);
      table[static_cast<std::size_t>(phase)][i] = static_cast<float>(w[i] / sum);
    }
  }
  return table;
}

/// One axis of one sample: the six pixels and their weights.
struct Taps {
  std::array<int, kTaps> at;
  const Weights* weights;
};

Taps taps(double place, int size, const std::array<Weights, kPhases + 1>& table) {
  const double from_first_centre = place - 0.5;
  const double first = std::floor(from_first_centre);
  const auto phase = static_cast<std::size_t>(std::lround((from_first_centre - first) * kPhases));
  Taps result{{}, &table[phase]};
  // Far outside, every tap is the edge pixel; the clamp keeps the conversion to int defined.
  const int base = static_cast<int>(std::clamp(first, -1e6, 1e6));
  for (int t = 0; t < kTaps; ++t) {
    result.at[static_cast<std::size_t>(t)] = std::clamp(base + t - (kLobes - 1), 0, size - 1);
  }
  return result;
}

}  // namespace

Raster warped(const Raster& image, const Affine<ArtworkPx, ArtworkPx>& source_from_result) {
  expect((source_from_result.linear() - Eigen::Matrix2d::Identity()).cwiseAbs().maxCoeff() < 0.1);
  static const std::array<Weights, kPhases + 1> table = weight_table();
  Raster result = image;
  const auto largest = static_cast<float>(image.largest());
  for (int y = 0; y < image.height_px; ++y) {
    for (int x = 0; x < image.width_px; ++x) {
      const Point<ArtworkPx> from = source_from_result({x + 0.5, y + 0.5});
      const Taps across = taps(from.x, image.width_px, table);
      const Taps down = taps(from.y, image.height_px, table);
      for (int c = 0; c < image.channels; ++c) {
        float sum = 0;
        for (std::size_t j = 0; j < kTaps; ++j) {
          float row = 0;
          for (std::size_t i = 0; i < kTaps; ++i) {
            row += (*across.weights)[i] * image.at(across.at[i], down.at[j], c);
          }
          sum += (*down.weights)[j] * row;
        }
        result.at(x, y, c) = static_cast<std::uint16_t>(std::clamp(sum, 0.0F, largest) + 0.5F);
      }
    }
  }
  return result;
}

}  // namespace versolay
