#include "registration/scan_checks.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/numbers.h"
#include "core/translation.h"

namespace versolay {
namespace {

constexpr double kMissingShare = 0.2;  // of the rings of a side: more is no torn corner
constexpr double kHalfShare = 0.35;
constexpr int kLeastValues = 4;  // coordinates that two scans must share to be compared
constexpr double kForeignScanMm = 0.3;

std::string side_word(const SideReading& scan) {
  return scan.identity.side == Side::recto ? tr("front") : tr("back");
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
std::string where(const std::vector<Point<PageMm>>& places, const Paper& paper) {
  Eigen::Vector2d sum = Eigen::Vector2d::Zero();
  for (const Point<PageMm>& p : places) sum += p.vec();
  if (std::abs(sum.y()) / paper.height_mm >= std::abs(sum.x()) / paper.width_mm) {
    return sum.y() < 0 ? tr("upper") : tr("lower");
  }
  return sum.x() < 0 ? tr("left") : tr("right");
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

/// 0 left, 1 right, 2 top, 3 bottom.
std::size_t edge_index(const Eigen::Vector2d& outward) {
  if (std::abs(outward.x()) > 0.5) return outward.x() < 0 ? 0 : 1;
  return outward.y() < 0 ? 2 : 3;
}

/// The edge of the page, as one looks at this side, that a miss belongs to; the identifiers of
/// edges are those of the front.
std::size_t edge_of_miss(const SideMiss& miss, const SideReading& scan) {
  static constexpr std::array<std::string_view, 4> kNames = {"left", "right", "top", "bottom"};
  const std::string_view name = std::string_view(miss.id).substr(0, miss.id.find('-'));
  const auto index =
      static_cast<std::size_t>(std::find(kNames.begin(), kNames.end(), name) - kNames.begin());
  if (scan.identity.side == Side::recto || index >= kNames.size()) return index;
  const bool across = index < 2;
  const bool swapped =
      across == (turn_axis(scan.identity.turn, scan.identity.paper) == TurnAxis::vertical);
  return swapped ? index ^ 1U : index;
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
  return Refusal{
      "half_missing",
      tr("The {} {} of the {} is not in the pictures. Scan it as well; a sheet that is larger than "
         "the scanner's glass is scanned in two halves that overlap a little in the middle.",
         where(rings_not_shown(scans), first.identity.paper),
         share_not_shown(scans) < kHalfShare ? tr("part") : tr("half"), side_word(first))};
}

RepeatLimits repeat_limits(bool turned) {
  return turned ? RepeatLimits{0.100, 0.200} : RepeatLimits{0.030, 0.060};
}

std::optional<Refusal> check_repeats(const std::vector<SideReading>& scans,
                                     const CombinedFeatures& combined, Notices& warnings) {
  const ScanDifference* difference = worst(combined.differences);
  if (difference == nullptr) return std::nullopt;
  const RepeatLimits limits = repeat_limits(difference->turned);
  const double rms = difference->rms_mm;
  if (rms <= limits.warn) return std::nullopt;
  const std::string side = side_word(scans.front());
  const std::string names =
      tr("{} and {}", scans[difference->a].scan_name, scans[difference->b].scan_name);
  if (rms > kForeignScanMm) {
    return Refusal{
        "not_same_sheet",
        tr("Two pictures of the {} do not show the same sheet ({}): the holes or edges are {} mm "
           "apart. Two sheets carry the same number; print each sheet of a target once.",
           side, names, format_fixed(rms, 2))};
  }
  const std::string message =
      difference->turned
          ? tr("This scanner stretches the picture by {} mm: two scans of the {}, turned round in "
               "between, differ by that much ({}). Scan both ways round, so that it averages out.",
               format_fixed(rms, 2), side, names)
          : tr("Two scans of the same side differ by {} mm ({}, {}). Press the sheet flat and "
               "rescan.",
               format_fixed(rms, 3), side, names);
  const std::string code = difference->turned ? "scanner_stretches" : "repeat_differs";
  if (rms > limits.fail) return Refusal{code, message};
  warnings.push_back({code, message});
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
  static constexpr std::array<const char*, 4> kNames = {tr_noop("left"), tr_noop("right"),
                                                        tr_noop("top"), tr_noop("bottom")};
  std::array<bool, 4> read{};
  for (const SideFeature& f : combined.features) {
    if (f.kind == FeatureKind::edge) read[edge_index(f.normal)] = true;
  }
  std::string lost;
  for (const SideReading& scan : scans) {
    for (const SideMiss& miss : scan.misses) {
      const auto* edge = std::get_if<EdgeMiss>(&miss.miss);
      if (edge == nullptr || (*edge != EdgeMiss::cut_off && *edge != EdgeMiss::outside)) continue;
      const std::size_t index = edge_of_miss(miss, scan);
      if (index >= kNames.size() || read[index]) continue;
      read[index] = true;  // named once
      lost += (lost.empty() ? "" : tr(" and the ")) + std::string(tr(kNames[index]));
    }
  }
  if (lost.empty()) return std::nullopt;
  return Refusal{"edges_cut_off",
                 tr("The {} edge of the paper is cut off in the picture of the {}: the sheet is as "
                    "long as the scanner's glass. Scan the side twice, shifted by 15 mm, so that "
                    "every edge is seen with some black card beyond it; or punch holes.",
                    lost, side_word(scans.front()))};
}

}  // namespace versolay
