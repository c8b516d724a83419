#include "measure/carriage_jerk.h"

#include <algorithm>
#include <cmath>

#include "measure/median.h"

namespace versolay {
namespace {

constexpr std::size_t kFewestRings = 20;
constexpr double kHarmonicPerWobble = 0.4;

/// By the median, so that smeared rings do not count.
double robust_variance(std::vector<double> values) {
  const double middle = median(values);
  for (double& v : values) v -= middle;
  const double sd = robust_sd(std::move(values));
  return sd * sd;
}

/// The cosine that the map foretells of each ring: minus a quarter of what it adds to the distance
/// between two places a radius before and behind the centre along the carriage.
std::vector<double> foretold_mm(const std::vector<RingStretch>& rings, double radius_mm,
                                const ScannerMap& map) {
  std::vector<Point<ScanPx>> ends;
  for (const RingStretch& ring : rings) {
    const double reach_px = radius_mm / map.mm_per_px().y();
    ends.push_back({ring.centre.x, ring.centre.y - reach_px});
    ends.push_back({ring.centre.x, ring.centre.y + reach_px});
  }
  const auto at = map.places_on_page(ends);
  std::vector<double> cosines;
  for (std::size_t i = 0; i < rings.size(); ++i) {
    const double apart_mm = (at[2 * i + 1].vec() - at[2 * i].vec()).norm();
    cosines.push_back(-(2 * radius_mm - apart_mm) / 4);
  }
  return cosines;
}

}  // namespace

double carriage_jerk_sd_mm(const std::vector<RingStretch>& rings, double radius_mm,
                           const ScannerMap& map) {
  if (rings.size() < kFewestRings) return 0.0;
  // On a page that lies on its side the harmonic has the other sign.
  const double sign = map.page_lies_upright() ? 1.0 : -1.0;
  const std::vector<double> foretold = foretold_mm(rings, radius_mm, map);
  std::vector<double> along;
  std::vector<double> aslant;
  for (std::size_t i = 0; i < rings.size(); ++i) {
    along.push_back(sign * rings[i].second_harmonic_mm.x() - foretold[i]);
    aslant.push_back(rings[i].second_harmonic_mm.y());
  }
  const double excess = robust_variance(along) - robust_variance(aslant);
  return std::sqrt(std::max(0.0, excess)) / kHarmonicPerWobble;
}

}  // namespace versolay
