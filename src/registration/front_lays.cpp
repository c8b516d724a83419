#include "registration/front_lays.h"

#include <map>

#include "core/files.h"
#include "registration/checks.h"
#include "registration/findings.h"
#include "registration/gathered_scans.h"
#include "registration/print_lay.h"
#include "registration/print_scale.h"
#include "registration/scan_checks.h"

namespace versolay {
namespace {

using FrontKey = std::pair<std::string, int>;  // run, sheet

Result<FrontReading> read_front(const std::vector<SideReading>& scans) {
  FrontReading front;
  front.sheet = scans.front().identity.sheet;
  front.run = scans.front().identity.run;
  front.correction = scans.front().correction;
  for (const SideReading& scan : scans) {
    front.files.push_back(scan.scan_name);
    if (scan.camera) return findings::front_photographed();
  }
  if (const auto refusal = check_whole_side_shown(scans)) return *refusal;
  const CombinedFeatures combined = combine_scans(scans);
  if (const auto refusal = check_repeats(scans, combined, front.warnings)) return *refusal;
  if (const auto refusal = check_edges_shown(scans, combined)) return *refusal;
  const auto lay = print_lay_of(combined);
  if (!lay) return why_nothing_was_read(scans, scans, true);
  front.lay = *lay;
  front.printed_scale = printed_scale_of(scans, lay);
  return front;
}

}  // namespace

Fronts front_lays(std::vector<SideReading> sides, std::vector<RejectedInput> rejected) {
  Fronts fronts;
  fronts.created = utc_now();
  GatheredScans gathered = gathered_scans(std::move(sides), std::move(rejected));
  fronts.paper = gathered.paper;
  fronts.turn = gathered.turn;
  std::map<FrontKey, std::vector<SideReading>> scans_of;
  for (SideReading& side : gathered.sides) {
    if (side.identity.side == Side::verso) {
      gathered.rejected.push_back(
          {{side.scan_name}, side.identity.sheet, findings::back_among_fronts()});
      continue;
    }
    scans_of[{side.identity.run, side.identity.sheet}].push_back(std::move(side));
  }
  for (const auto& [key, scans] : scans_of) {
    Result<FrontReading> front = read_front(scans);
    if (front) {
      fronts.fronts.push_back(std::move(front).value());
      continue;
    }
    std::vector<std::string> names;
    for (const SideReading& scan : scans) names.push_back(scan.scan_name);
    gathered.rejected.push_back({names, key.second, front.refusal()});
  }
  fronts.rejected = std::move(gathered.rejected);
  sort_rejected(fronts.rejected);
  return fronts;
}

}  // namespace versolay
