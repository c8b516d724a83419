#include "registration/repeats.h"

#include <algorithm>
#include <set>
#include <string>

#include "registration/scan_checks.h"

namespace versolay {
namespace {

using ScanSet = std::vector<SideReading>;

constexpr double kAddsSomething = 0.1;  // share of a side that a part must add to a set

bool completes(const ScanSet& set, const SideReading& scan) {
  if (shows_whole_side(set)) return false;
  ScanSet with = set;
  with.push_back(scan);
  return share_not_shown(with) < share_not_shown(set) - kAddsSomething;
}

/// Scans, or sets of parts, that show a whole side each.
std::vector<ScanSet> whole_sides(const std::vector<SideReading>& scans) {
  std::vector<ScanSet> sets;
  for (const SideReading& scan : scans) {
    const auto open = std::find_if(sets.begin(), sets.end(),
                                   [&](const ScanSet& set) { return completes(set, scan); });
    if (open == sets.end()) {
      sets.push_back({scan});
    } else {
      open->push_back(scan);
    }
  }
  std::erase_if(sets, [](const ScanSet& set) { return !shows_whole_side(set); });
  return sets;
}

}  // namespace

std::vector<Registration> repeated_registrations(const std::vector<SideReading>& recto,
                                                 const std::vector<SideReading>& verso,
                                                 const std::vector<FeatureReading>& used,
                                                 RegistrationModel model, TurnAxis axis) {
  if (recto.size() < 2 || verso.size() < 2) return {};
  std::set<std::string> names;
  for (const FeatureReading& feature : used) names.insert(feature.id);
  const std::vector<ScanSet> fronts = whole_sides(recto);
  const std::vector<ScanSet> backs = whole_sides(verso);
  std::vector<Registration> registrations;
  for (std::size_t i = 0; i < std::min(fronts.size(), backs.size()); ++i) {
    PairedFeatures pairs =
        PairedFeatures::by_name(combine_scans(fronts[i]), combine_scans(backs[i]), axis)
            .named(names);
    const auto fit = pairs.fit();
    if (fit && fit->model == model) registrations.push_back(fit->registration);
  }
  if (registrations.size() < 2) registrations.clear();
  return registrations;
}

}  // namespace versolay
