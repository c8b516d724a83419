#include "app/compare.h"

#include <map>

#include "profile/estimate.h"
#include "profile/profile_json.h"
#include "registration/readings_json.h"
#include "registration/sheet_studies.h"
#include "words/findings.h"

namespace versolay {
namespace {

Result<SetUp> read_set_up(const std::filesystem::path& path) {
  const Json document = read_json(path);
  const std::string file = path.string();
  const std::string schema = JsonPlace(document, file).text_or("schema", "");
  SetUp set_up;
  set_up.name = path.stem().string();
  if (schema.starts_with("versolay.profile/")) {
    set_up.profile = profile_from(document, file);
    return set_up;
  }
  if (!schema.starts_with("versolay.readings/")) {
    throw Error(file, findings::neither_profile_nor_readings());
  }
  Readings readings = readings_from(document, file);
  const Studies studies = studies_of(readings.sheets, readings.turn, readings.paper);
  auto profile = estimate_profile({{path.filename().string(), std::move(readings)}}, {});
  if (!profile) return profile.refusal();
  set_up.profile = std::move(profile).value();
  set_up.profile.studies = studies;
  return set_up;
}

/// By their paths, where the names of the files are the same.
void tell_namesakes_apart(const std::vector<std::filesystem::path>& files,
                          std::vector<SetUp>& set_ups) {
  std::map<std::string, int> count;
  for (const SetUp& s : set_ups) ++count[s.name];
  for (std::size_t i = 0; i < set_ups.size(); ++i) {
    if (count[set_ups[i].name] > 1) set_ups[i].name = files[i].string();
  }
}

}  // namespace

Result<CompareReport> run_compare(const CompareRequest& job) {
  std::vector<SetUp> set_ups;
  for (const auto& file : job.files) {
    auto set_up = read_set_up(file);
    if (!set_up) return set_up.refusal();
    set_ups.push_back(std::move(set_up).value());
  }
  tell_namesakes_apart(job.files, set_ups);
  CompareReport report;
  for (std::size_t i = 1; i < set_ups.size(); ++i) {
    auto comparison = compare_set_ups(set_ups[0], set_ups[i], job.paired);
    if (!comparison) return comparison.refusal();
    report.comparisons.push_back(std::move(comparison).value());
  }
  for (std::size_t i = 1; i < set_ups.size(); ++i) {
    if (auto foretold = foretold_turn(set_ups[0], set_ups[i])) report.foretold.push_back(*foretold);
  }
  for (const SetUp& s : set_ups) {
    report.chance.push_back(test_chance(s));
  }
  for (std::size_t i = 1; i < set_ups.size(); ++i) {
    if (set_ups[i].profile.turn == set_ups[0].profile.turn) continue;
    report.warnings.push_back(findings::turns_differ(set_ups[i].name, set_ups[0].name));
  }
  return report;
}

}  // namespace versolay
