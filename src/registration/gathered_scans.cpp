#include "registration/gathered_scans.h"

#include <algorithm>
#include <map>
#include <tuple>

#include "registration/findings.h"

namespace versolay {
namespace {

/// The target (paper and turn) that most scans show; readings of one file are of one set-up.
struct TargetKey {
  double width_mm;
  double height_mm;
  Turn turn;
  auto operator<=>(const TargetKey&) const = default;
};
TargetKey target_of(const PageIdentity& identity) {
  return {identity.paper.width_mm, identity.paper.height_mm, identity.turn};
}

/// That of A4 when there is no scan.
TargetKey target_of_most(const std::vector<SideReading>& sides) {
  std::map<TargetKey, int> votes;
  for (const SideReading& side : sides) ++votes[target_of(side.identity)];
  const auto most = std::max_element(
      votes.begin(), votes.end(), [](const auto& a, const auto& b) { return a.second < b.second; });
  if (most != votes.end()) return most->first;
  const Paper a4 = parse_paper("a4");
  return {a4.width_mm, a4.height_mm, Turn::long_edge};
}

/// By name, so that the order on the command line does not matter; of one name in two folders by
/// what they show.
void sort_scans(std::vector<SideReading>& scans) {
  const auto order = [](const SideReading& scan) {
    const Point<ScanPx> ring = scan.rings.front().seen;
    return std::tuple(scan.scan_name, scan.identity.sheet, scan.identity.side, ring.x, ring.y);
  };
  std::sort(scans.begin(), scans.end(),
            [&](const SideReading& a, const SideReading& b) { return order(a) < order(b); });
}

bool same_picture(const SideReading& a, const SideReading& b) {
  return a.rings.size() == b.rings.size() &&
         std::equal(a.rings.begin(), a.rings.end(), b.rings.begin(),
                    [](const RingUse& x, const RingUse& y) { return x.seen == y.seen; });
}

/// One picture in two files is one measurement. Precondition: sorted by name.
void leave_out_copies(std::vector<SideReading>& sides, std::vector<RejectedInput>& rejected) {
  std::vector<SideReading> originals;
  for (SideReading& side : sides) {
    const auto original =
        std::find_if(originals.begin(), originals.end(),
                     [&](const SideReading& other) { return same_picture(side, other); });
    if (original == originals.end()) {
      originals.push_back(std::move(side));
    } else {
      rejected.push_back({{side.scan_name},
                          std::nullopt,
                          original->scan_name == side.scan_name
                              ? findings::given_twice()
                              : findings::copy(original->scan_name)});
    }
  }
  sides = std::move(originals);
}

}  // namespace

GatheredScans gathered_scans(std::vector<SideReading> sides, std::vector<RejectedInput> rejected) {
  sort_scans(sides);
  leave_out_copies(sides, rejected);
  const TargetKey target = target_of_most(sides);
  GatheredScans gathered;
  gathered.paper = paper_of_size(target.width_mm, target.height_mm);
  gathered.turn = target.turn;
  gathered.rejected = std::move(rejected);
  for (SideReading& side : sides) {
    if (target_of(side.identity) == target) {
      gathered.sides.push_back(std::move(side));
      continue;
    }
    gathered.rejected.push_back({{side.scan_name}, std::nullopt, of_other_target(side)});
    gathered.of_other_targets.push_back(std::move(side));
  }
  return gathered;
}

Refusal of_other_target(const SideReading& side) {
  return findings::other_target(side.identity.paper.name, Term{to_string(side.identity.turn)});
}

void sort_rejected(std::vector<RejectedInput>& rejected) {
  std::stable_sort(rejected.begin(), rejected.end(),
                   [](const RejectedInput& a, const RejectedInput& b) {
                     return std::tie(a.files, a.sheet) < std::tie(b.files, b.sheet);
                   });
}

}  // namespace versolay
