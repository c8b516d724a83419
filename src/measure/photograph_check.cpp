#include "measure/photograph_check.h"

#include <algorithm>
#include <limits>

#include "measure/findings.h"
#include "measure/sampler.h"

namespace versolay {
namespace {

constexpr double kLeastPxPerMm = 6.0;   // 150 dpi, as of scans
constexpr double kMostSlope = 0.3;      // 17 degrees
constexpr double kMostUnevenMm = 0.35;  // rms: ends of the paper more than 5 mm up, from 300 mm

/// Where the paper is seen smallest: at one of its corners.
double least_px_per_mm(const CameraMap& camera, const Paper& paper) {
  double least = std::numeric_limits<double>::max();
  for (const double x : {-0.5, 0.5}) {
    for (const double y : {-0.5, 0.5}) {
      const auto around = camera.scan_from_page_around({x * paper.width_mm, y * paper.height_mm});
      least = std::min(least, px_per_mm(around));
    }
  }
  return least;
}

}  // namespace

std::optional<Refusal> check_photograph(const CameraMap& camera, const Paper& paper) {
  const CameraStand stand = camera.stand();
  if (stand.foot.vec().norm() > kMostSlope * stand.height_mm) {
    return findings::photograph_askew();
  }
  const double px_per_mm = least_px_per_mm(camera, paper);
  if (px_per_mm < kLeastPxPerMm) {
    return findings::photograph_too_small(px_per_mm, kLeastPxPerMm);
  }
  if (camera.residual_rms_mm() > kMostUnevenMm) {
    return findings::photograph_not_flat(Length{2 * camera.residual_rms_mm()});
  }
  return std::nullopt;
}

}  // namespace versolay
