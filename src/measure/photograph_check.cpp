#include "measure/photograph_check.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "core/numbers.h"

namespace versolay {
namespace {

constexpr double kLeastPxPerMm = 6.0;   // 150 dpi, as of scans
constexpr double kMostAskew = 1.6;      // of the scales at two corners: some 15 degrees from 300 mm
constexpr double kMostUnevenMm = 0.35;  // rms: ends of the paper more than 5 mm up, from 300 mm

/// Pixels per mm, smallest and largest of the corners of the paper.
std::array<double, 2> scales(const CameraMap& camera, const Paper& paper) {
  std::array<double, 2> range = {1e9, 0.0};
  for (const double x : {-0.5, 0.5}) {
    for (const double y : {-0.5, 0.5}) {
      const auto around =
          camera.scan_from_page_around({x * paper.width_mm, y * paper.height_mm}).linear();
      const double scale = std::sqrt(std::abs(around.determinant()));
      range = {std::min(range[0], scale), std::max(range[1], scale)};
    }
  }
  return range;
}

}  // namespace

std::optional<Refusal> check_photograph(const CameraMap& camera, const Paper& paper) {
  const auto [least, most] = scales(camera, paper);
  if (least < kLeastPxPerMm) {
    return Refusal{"photograph_too_small",
                   fmt::format("This looks like a photograph, and shows a millimetre of the sheet "
                               "on {} pixels only; {} are needed. Let the sheet fill the picture, "
                               "and set the camera to its full resolution.",
                               format_fixed(least, 1), format_fixed(kLeastPxPerMm, 0))};
  }
  if (most > kMostAskew * least) {
    return Refusal{
        "photograph_askew",
        fmt::format("This looks like a photograph taken from the side: one corner of the "
                    "sheet is {} % larger than another. Hold the camera straight above "
                    "the middle of the sheet.",
                    format_fixed(100 * (most / least - 1), 0))};
  }
  if (camera.residual_rms_mm() > kMostUnevenMm) {
    return Refusal{
        "photograph_not_flat",
        fmt::format("This looks like a photograph of a sheet that is not flat: its marks "
                    "lie up to {} mm from where a flat sheet has them. Weigh down its "
                    "corners, or lay a pane of glass on it.",
                    format_fixed(2 * camera.residual_rms_mm(), 1))};
  }
  return std::nullopt;
}

}  // namespace versolay
