#include "registration/gauge_report.h"

#include "stats/gauge.h"

namespace versolay {
namespace {

constexpr std::size_t kComponents = 3;

GaugeComponent component_from(const stats::GaugeStudy& study, std::size_t index) {
  GaugeComponent component;
  component.component = kRegistrationKeys[index];
  component.repeatability_sd = study.repeatability.sd;
  component.repeatability_low = study.sd_low;
  component.repeatability_high = study.sd_high;
  component.has_spread = study.process.has_value();
  if (study.process) {
    component.distinguishable = study.process->distinguishable;
    component.spread_sd = study.process->sd;
    component.spread_sd_high = study.process->sd_high;
    component.share = study.process->share;
    component.distinct_categories = study.process->distinct_categories;
  }
  return component;
}

}  // namespace

std::optional<GaugeReport> gauge_of(const std::vector<SheetReading>& sheets) {
  GaugeReport report;
  for (std::size_t c = 0; c < kComponents; ++c) {
    std::vector<std::vector<double>> items;
    for (const SheetReading& sheet : sheets) {
      // A sheet scanned once counts for the spread.
      std::vector<double> values;
      for (const Registration& r : sheet.repeats) {
        values.push_back(r.vec()[static_cast<Eigen::Index>(c)]);
      }
      if (values.empty()) values = {sheet.registration.vec()[static_cast<Eigen::Index>(c)]};
      items.push_back(std::move(values));
    }
    const auto study = stats::gauge_study(items);
    if (!study) return std::nullopt;
    report.dof = study->repeatability.dof;
    report.enough = study->enough_repeats;
    report.components.push_back(component_from(*study, c));
  }
  for (const SheetReading& sheet : sheets) report.sheets += sheet.repeats.size() > 1 ? 1 : 0;
  return report;
}

}  // namespace versolay
