#include "registration/scan_checks.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "registration/edge_names.h"
#include "registration/findings.h"

namespace versolay {
namespace {

// From memory of home scanners. How often good repeats are reported: tests/bench/README.md, "3
// scans a side".
constexpr double kMissingShare = 0.2;  // of the rings of a side: more is no torn corner
constexpr double kHalfShare = 0.35;
constexpr int kLeastValues = 4;  // coordinates that two scans must share to be compared
constexpr double kForeignScanMm = 0.3;
constexpr RepeatLimits kLyingTheSameWay = {0.030, 0.060};
constexpr RepeatLimits kLyingOtherwise = {0.100, 0.200};  // the scanner's bend counts twice

Term side_of(const SideReading& scan) {
  return {scan.identity.side == Side::recto ? "front" : "back"};
}

/// The largest difference against its limit of failing.
const ScanDifference* worst(const std::vector<ScanDifference>& differences) {
  const ScanDifference* found = nullptr;
  double most = 0.0;
  for (const ScanDifference& d : differences) {
    const double share = d.rms_mm / repeat_limits(d.turned).fail;
    if (d.values < kLeastValues || share <= most) continue;
    most = share;
    found = &d;
  }
  return found;
}

/// "upper", "left" ...: where on the page these places lie, seen from that side.
Term where(const std::vector<Point<PageMm>>& places, const Paper& paper) {
  Eigen::Vector2d sum = Eigen::Vector2d::Zero();
  for (const Point<PageMm>& p : places) sum += p.vec();
  if (std::abs(sum.y()) / paper.height_mm >= std::abs(sum.x()) / paper.width_mm) {
    return {sum.y() < 0 ? "upper" : "lower"};
  }
  return {sum.x() < 0 ? "left" : "right"};
}

/// Nominal places of the rings that none of the scans shows.
std::vector<Point<PageMm>> rings_not_shown(const std::vector<SideReading>& scans) {
  std::vector<Point<PageMm>> missing = scans.front().rings_outside;
  for (const SideReading& scan : scans) {
    std::erase_if(missing, [&](const Point<PageMm>& ring) {
      return std::none_of(
          scan.rings_outside.begin(), scan.rings_outside.end(),
          [&](const Point<PageMm>& other) { return other.x == ring.x && other.y == ring.y; });
    });
  }
  return missing;
}

}  // namespace

double share_not_shown(const std::vector<SideReading>& scans) {
  const SideReading& first = scans.front();
  return static_cast<double>(rings_not_shown(scans).size()) /
         (static_cast<double>(first.rings_expected) +
          static_cast<double>(first.rings_outside.size()));
}

bool shows_whole_side(const std::vector<SideReading>& scans) {
  return share_not_shown(scans) < kMissingShare;
}

std::optional<Refusal> check_whole_side_shown(const std::vector<SideReading>& scans) {
  if (shows_whole_side(scans)) return std::nullopt;
  const SideReading& first = scans.front();
  return findings::half_missing(where(rings_not_shown(scans), first.identity.paper),
                                Term{share_not_shown(scans) < kHalfShare ? "part" : "half"},
                                side_of(first));
}

RepeatLimits repeat_limits(bool turned) { return turned ? kLyingOtherwise : kLyingTheSameWay; }

std::optional<Refusal> check_repeats(const std::vector<SideReading>& scans,
                                     const CombinedFeatures& combined, Notices& warnings) {
  const ScanDifference* difference = worst(combined.differences);
  if (difference == nullptr) return std::nullopt;
  const RepeatLimits limits = repeat_limits(difference->turned);
  const double rms = difference->rms_mm;
  if (rms <= limits.warn) return std::nullopt;
  const Term side = side_of(scans.front());
  const std::vector<std::string> names = {scans[difference->a].scan_name,
                                          scans[difference->b].scan_name};
  if (rms > kForeignScanMm) return findings::two_sheets_of_one_number(side, names, Length{rms});
  const Finding finding = difference->turned ? findings::scanner_stretches(Length{rms}, side, names)
                                             : findings::repeat_differs(Length{rms}, side, names);
  if (rms > limits.fail) return finding;
  warnings.push_back(finding);
  return std::nullopt;
}

bool holes_seen(const std::vector<SideReading>& scans) {
  return std::any_of(scans.begin(), scans.end(), [](const SideReading& scan) {
    const bool missed =
        std::any_of(scan.misses.begin(), scan.misses.end(), [](const SideMiss& miss) {
          const auto* hole = std::get_if<HoleMiss>(&miss.miss);
          return hole != nullptr && *hole != HoleMiss::outside && *hole != HoleMiss::none_made;
        });
    return missed || std::any_of(scan.places.features.begin(), scan.places.features.end(),
                                 [](const SideFeature& f) { return f.kind != FeatureKind::edge; });
  });
}

std::optional<Refusal> check_edges_shown(const std::vector<SideReading>& scans,
                                         const CombinedFeatures& combined) {
  std::array<bool, 4> read{};
  for (const SideFeature& f : combined.features) {
    if (f.kind == FeatureKind::edge) read[edge_index(f.normal)] = true;
  }
  std::vector<std::string> lost;
  for (const SideReading& scan : scans) {
    for (const SideMiss& miss : scan.misses) {
      const auto* edge = std::get_if<EdgeMiss>(&miss.miss);
      if (edge == nullptr || (*edge != EdgeMiss::cut_off && *edge != EdgeMiss::outside)) continue;
      const std::size_t index = edge_index(miss.outward);
      if (read[index]) continue;
      read[index] = true;  // named once
      lost.emplace_back(kEdgeNames[index]);
    }
  }
  if (lost.empty()) return std::nullopt;
  return findings::edges_cut_off(lost, side_of(scans.front()));
}

}  // namespace versolay
