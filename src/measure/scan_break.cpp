#include "measure/scan_break.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "core/linear_algebra.h"
#include "measure/median.h"

namespace versolay {
namespace {

constexpr std::size_t kRingsOnASide = 8;
constexpr std::size_t kLeastPlaces = 8;
constexpr double kLeastStepMm = 0.14;
constexpr double kStepSigmas = 9.0;
constexpr double kLooseMm = 2.0;  // rings behind a break are part of the picture, too

constexpr int kLeastStrip = 4;
constexpr double kLeastStripMm = 0.06;
constexpr double kAcross = 0.6;  // of the extent of the rings

/// A ring's place along an axis of the scan, and how far it is off along it; mm.
struct Along {
  double at_mm = 0.0;
  double off_mm = 0.0;
};

/// The step between the rings before and those from `first_behind` on, beside a line.
double step_at(const std::vector<Along>& rings, std::size_t first_behind) {
  const std::size_t from = first_behind - kRingsOnASide;
  constexpr auto kRows = static_cast<Eigen::Index>(2 * kRingsOnASide);
  Eigen::MatrixXd rows(kRows, 3);
  Eigen::VectorXd off(kRows);
  for (Eigen::Index i = 0; i < kRows; ++i) {
    const Along& ring = rings[from + static_cast<std::size_t>(i)];
    const bool behind = from + static_cast<std::size_t>(i) >= first_behind;
    rows.row(i) << 1.0, ring.at_mm - rings[first_behind].at_mm, behind ? 1.0 : 0.0;
    off[i] = ring.off_mm;
  }
  return least_squares(rows, off).solution[2];
}

std::optional<double> outstanding_step(std::vector<Along> rings) {
  constexpr double kSameLineMm = 0.5;
  std::sort(rings.begin(), rings.end(),
            [](const Along& a, const Along& b) { return a.at_mm < b.at_mm; });
  std::vector<double> steps;
  for (std::size_t i = kRingsOnASide; i + kRingsOnASide <= rings.size(); ++i) {
    if (rings[i].at_mm - rings[i - 1].at_mm > kSameLineMm) steps.push_back(step_at(rings, i));
  }
  if (steps.size() < kLeastPlaces) return std::nullopt;
  const double middle = median(steps);
  double largest = 0.0;
  for (double& step : steps) {
    step -= middle;
    largest = std::max(largest, std::abs(step));
  }
  if (largest < std::max(kLeastStepMm, kStepSigmas * robust_sd(std::move(steps)))) {
    return std::nullopt;
  }
  return largest;
}

/// How much of the rings' own extent these take up, along the rows or along the columns, whichever
/// is more. Paper that is buckled displaces a patch; a break displaces all that lies behind it.
double share_of_extent(const std::vector<PagePair>& rings,
                       const std::vector<Point<ScanPx>>& places) {
  double share = 0.0;
  for (const Eigen::Index axis : {0, 1}) {
    double low = rings.front().scan.vec()[axis];
    double high = low;
    for (const PagePair& ring : rings) {
      low = std::min(low, ring.scan.vec()[axis]);
      high = std::max(high, ring.scan.vec()[axis]);
    }
    double first = places.front().vec()[axis];
    double last = first;
    for (const Point<ScanPx>& place : places) {
      first = std::min(first, place.vec()[axis]);
      last = std::max(last, place.vec()[axis]);
    }
    if (high > low) share = std::max(share, (last - first) / (high - low));
  }
  return share;
}

/// The rings that the map left out.
struct LeftOut {
  std::vector<Point<ScanPx>> places;
  std::vector<Point<PageMm>> nominal;
  bool across = false;  // from one side of the page to the other
};

LeftOut left_out(const std::vector<PagePair>& rings, const ScannerMap& map) {
  LeftOut out;
  for (std::size_t i = 0; i < rings.size(); ++i) {
    if (map.kept()[i]) continue;
    out.places.push_back(rings[i].scan);
    out.nominal.push_back(rings[i].page);
  }
  out.across = !out.places.empty() && share_of_extent(rings, out.places) >= kAcross;
  return out;
}

/// How far rings across the page, left out together, were displaced, all by the same amount.
std::optional<double> displaced_strip(const LeftOut& rings, const ScannerMap& map) {
  if (rings.places.size() < kLeastStrip || !rings.across) return std::nullopt;
  const std::vector<Point<PageMm>> predicted = map.places_on_page(rings.places);
  std::vector<double> x_mm;
  std::vector<double> y_mm;
  for (std::size_t i = 0; i < predicted.size(); ++i) {
    x_mm.push_back(predicted[i].x - rings.nominal[i].x);
    y_mm.push_back(predicted[i].y - rings.nominal[i].y);
  }
  const Eigen::Vector2d middle(median(x_mm), median(y_mm));
  std::vector<double> scatter_mm;
  for (std::size_t i = 0; i < x_mm.size(); ++i) {
    scatter_mm.push_back((Eigen::Vector2d(x_mm[i], y_mm[i]) - middle).norm());
  }
  if (middle.norm() < kLeastStripMm || median(scatter_mm) > middle.norm() / 3) return std::nullopt;
  return middle.norm();
}

}  // namespace

std::optional<ScanBreak> find_scan_break(const std::vector<PagePair>& rings,
                                         const ScannerMap& map) {
  const LeftOut out = left_out(rings, map);
  if (const auto step = displaced_strip(out, map)) return ScanBreak{*step};
  const auto fit = fit_page(rings, kLooseMm, static_cast<int>(2 * kRingsOnASide));
  if (!fit) return std::nullopt;
  const bool patch = !out.places.empty() && !out.across;
  const Eigen::Matrix2d px_from_mm = fit->page_from_scan.linear().inverse();
  for (const Eigen::Index axis : {1, 0}) {
    std::vector<Along> along;
    for (std::size_t i = 0; i < rings.size(); ++i) {
      if (!fit->kept[i] || (patch && !map.kept()[i])) continue;
      const Eigen::Vector2d off_px =
          px_from_mm * (fit->page_from_scan(rings[i].scan).vec() - rings[i].page.vec());
      along.push_back({rings[i].scan.vec()[axis] * map.mm_per_px()[axis],
                       off_px[axis] * map.mm_per_px()[axis]});
    }
    if (const auto step = outstanding_step(std::move(along))) return ScanBreak{*step};
  }
  return std::nullopt;
}

}  // namespace versolay
