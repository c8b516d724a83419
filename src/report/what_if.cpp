#include "report/what_if.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "core/numbers.h"
#include "words/direction_words.h"
#include "words/translation.h"

namespace versolay {
namespace {

constexpr std::array kGrowths = {Growth::equal, Growth::proportional, Growth::per_axis};
constexpr double kOtherBorderMm = 3.0;  // to start from where the job has no border

std::vector<double> with(std::vector<double> list, double value) {
  if (std::find(list.begin(), list.end(), value) == list.end()) list.push_back(value);
  std::sort(list.begin(), list.end());
  return list;
}

/// Resolutions whose results are the same: all with one reason for not shifting, or none.
struct Groups {
  std::vector<double> ppi;           // one of each group; its advice stands for the group
  std::map<double, std::size_t> of;  // resolution -> group
};

Groups groups_of(const PrinterProfile& profile, const AdviceRequest& request) {
  Groups groups;
  std::vector<NoShift> reasons;
  for (double ppi : with({150, 300, 600, 1200}, request.ppi)) {
    AdviceRequest other = request;
    other.ppi = ppi;
    const NoShift reason = no_shift_reason(profile, other);
    const auto found = std::find(reasons.begin(), reasons.end(), reason);
    groups.of[ppi] = static_cast<std::size_t>(found - reasons.begin());
    if (found == reasons.end()) {
      reasons.push_back(reason);
      groups.ppi.push_back(ppi);
    }
  }
  return groups;
}

Json shift_json(const SureAdvices& a) {
  return {{"advised", a.no_shift == NoShift::none},
          {"dx_mm", a.shift.dx_mm},
          {"dy_mm", a.shift.dy_mm},
          {"rotation_mrad", a.shift.rotation_mrad}};
}

std::string oversize_cell(const Oversize& o) {
  if (o.x_px == o.y_px) return oversize_length_words(o.x_mm, o.x_px);
  return fmt::format("{} / {} ({} / {} px)", distance_words_up(o.x_mm), distance_words_up(o.y_mm),
                     o.x_px, o.y_px);
}

std::string percent(double share) { return format_number(100 * share, 1) + " %"; }

}  // namespace

WhatIfTable what_if(const PrinterProfile& profile, const AdviceRequest& request,
                    const Effort& effort) {
  const std::vector<double> coverages = with({0.90, 0.95, 0.99}, request.coverage);
  const std::vector<double> confidences = with({0.80, 0.90, 0.95}, request.confidence);
  const Groups groups = groups_of(profile, request);

  WhatIfTable result;
  result.data = {{"ppi", Json::array()},
                 {"border_mm", request.border_mm.value_or(kOtherBorderMm)},
                 {"coverage", coverages},
                 {"confidence", confidences},
                 {"grow", Json::array()},
                 {"chosen",
                  {{"coverage", request.coverage},
                   {"confidence", request.confidence},
                   {"grow", to_string(request.growth)},
                   {"ppi", request.ppi}}},
                 {"count", request.count == CountBy::card ? "card" : "sheet"},
                 {"shifts", Json::array()},
                 {"cases", Json::array()}};
  for (const auto& [ppi, group] : groups.of) {
    result.data["ppi"].push_back({{"ppi", ppi}, {"group", group}});
  }
  for (Growth growth : kGrowths) result.data["grow"].push_back(to_string(growth));
  result.table.caption =
      tr("How far the back has to reach beyond the card on each side (left and right / top and "
         "bottom where these differ); pixels at {} ppi.",
         format_number(request.ppi, 0));
  result.table.head = {tr("growth, and share of good {}",
                          request.count == CountBy::card ? tr("cards") : tr("sheets"))};
  for (double confidence : confidences) {
    result.table.head.push_back(tr("{} sure", percent(confidence)));
  }

  for (std::size_t group = 0; group < groups.ppi.size(); ++group) {
    const bool of_job = groups.of.at(request.ppi) == group;
    for (Growth growth : kGrowths) {
      for (double coverage : coverages) {
        std::vector<std::string> row = {std::string(to_string(growth)) + ", " + percent(coverage)};
        AdviceRequest wish = request;
        wish.ppi = of_job ? request.ppi : groups.ppi[group];
        wish.growth = growth;
        wish.coverage = coverage;
        const SureAdvices advices = advise_for(profile, wish, confidences, effort);
        if (result.data["shifts"].size() == group) {
          result.data["shifts"].push_back(shift_json(advices));
        }
        for (const SureAdvice& advice : advices.list) {
          result.data["cases"].push_back({{"group", group},
                                          {"grow", to_string(growth)},
                                          {"coverage", coverage},
                                          {"confidence", advice.confidence},
                                          {"x_mm", advice.oversize.x_mm},
                                          {"y_mm", advice.oversize.y_mm},
                                          {"typical_off_mm", advices.typical_off_mm},
                                          {"worst_off_mm", advice.worst_off_mm}});
          row.push_back(oversize_cell(advice.oversize));
        }
        if (of_job) result.table.rows.push_back(std::move(row));
      }
    }
  }
  return result;
}

}  // namespace versolay
