#include "registration/register_all.h"

#include <algorithm>
#include <tuple>

#include "core/files.h"
#include "registration/findings.h"
#include "registration/page_order.h"

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

std::vector<std::string> scan_names(const SheetScans& scans) {
  std::vector<std::string> names;
  for (const auto* side : {&scans.recto, &scans.verso}) {
    for (const SideReading& scan : *side) names.push_back(scan.scan_name);
  }
  return names;
}

const SideReading& a_scan_of(const SheetScans& scans) {
  return (scans.recto.empty() ? scans.verso : scans.recto).front();
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
      rejected.push_back({{side.scan_name}, std::nullopt, findings::copy(original->scan_name)});
    }
  }
  sides = std::move(originals);
}

SheetKey key_of(const SideReading& side) {
  const PageIdentity& page = side.identity;
  return {page.paper.width_mm, page.paper.height_mm, page.turn, page.run, page.sheet};
}

/// A fault of ours in one sheet must not cost the others.
Result<SheetReading> registered(const SheetScans& scans, DatumChoice datum) {
  try {
    return register_sheet(scans, datum);
  } catch (const std::exception& e) {
    return findings::sheet_fault(e.what());
  }
}

}  // namespace

const Result<SheetReading>* RegisteredSheets::verdict_of(const SideReading& side) const {
  const auto verdict = verdicts.find(key_of(side));
  return verdict == verdicts.end() ? nullptr : &verdict->second;
}

RegisteredSheets register_all(std::vector<SideReading> sides, std::vector<RejectedInput> rejected,
                              DatumChoice datum) {
  sort_scans(sides);
  leave_out_copies(sides, rejected);
  RegisteredSheets all;
  Readings& readings = all.readings;
  readings.created = utc_now();
  const TargetKey target = target_of_most(sides);
  readings.paper = paper_of_size(target.width_mm, target.height_mm);
  readings.turn = target.turn;

  std::map<SheetKey, SheetScans> sheets;
  for (SideReading& side : sides) {
    if (target_of(side.identity) != target) {
      const Refusal refusal =
          findings::other_target(side.identity.paper.name, Term{to_string(side.identity.turn)});
      all.verdicts.insert_or_assign(key_of(side), refusal);
      rejected.push_back({{side.scan_name}, std::nullopt, refusal});
      continue;
    }
    SheetScans& scans = sheets[key_of(side)];
    (side.identity.side == Side::recto ? scans.recto : scans.verso).push_back(std::move(side));
  }
  std::vector<RefusedSheet> refused;
  for (auto& [key, scans] : sheets) {
    Result<SheetReading> sheet = registered(scans, datum);
    all.verdicts.insert_or_assign(key, sheet);
    if (sheet) {
      readings.sheets.push_back(std::move(sheet).value());
    } else {
      refused.push_back({std::move(scans), sheet.refusal()});
    }
  }
  name_wrong_backs(refused);
  for (const RefusedSheet& sheet : refused) {
    const SideReading& any = a_scan_of(sheet.scans);
    all.verdicts.insert_or_assign(key_of(any), sheet.refusal);
    rejected.push_back({scan_names(sheet.scans), any.identity.sheet, sheet.refusal});
  }
  std::stable_sort(rejected.begin(), rejected.end(),
                   [](const RejectedInput& a, const RejectedInput& b) {
                     return std::tie(a.files, a.sheet) < std::tie(b.files, b.sheet);
                   });
  readings.rejected = std::move(rejected);
  return all;
}

}  // namespace versolay
