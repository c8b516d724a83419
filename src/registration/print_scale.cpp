#include "registration/print_scale.h"

#include <algorithm>
#include <cmath>

#include "core/print_scale_fault.h"
#include "registration/findings.h"

namespace versolay {
namespace {

constexpr double kScaleFail = 0.02;
constexpr double kYardsticksDiffer = 0.01;

std::optional<Eigen::Vector2d> by_resolution(const std::vector<SideReading>& scans) {
  Eigen::Vector2d sum = Eigen::Vector2d::Zero();
  int n = 0;
  for (const SideReading& scan : scans) {
    if (!scan.printed_scale.x || !scan.printed_scale.y) continue;
    sum += Eigen::Vector2d(*scan.printed_scale.x, *scan.printed_scale.y);
    ++n;
  }
  if (n == 0) return std::nullopt;
  return sum / n;
}

/// The larger the print, the smaller the paper measured in it.
std::optional<Eigen::Vector2d> by_paper(const Paper& paper, const std::optional<PrintLay>& lay) {
  if (!lay) return std::nullopt;
  return Eigen::Vector2d(paper.width_mm / lay->paper_width_mm,
                         paper.height_mm / lay->paper_height_mm);
}

std::string_view likely_cause(const Eigen::Vector2d& scale) {
  if ((scale.array() > 1.0).all()) return "enlarged";
  return (scale.array() < 1.0).all() ? "shrunk" : "mixed";
}

}  // namespace

PrintedScale printed_scale_of(const std::vector<SideReading>& scans,
                              const std::optional<PrintLay>& lay) {
  const auto resolution = by_resolution(scans);
  const auto paper = by_paper(scans.front().identity.paper, lay);
  std::optional<Eigen::Vector2d> best = resolution ? resolution : paper;
  if (resolution && paper && (*resolution - *paper).cwiseAbs().maxCoeff() > kYardsticksDiffer &&
      scale_fault(*paper) < scale_fault(*resolution)) {
    best = paper;
  }
  if (!best) return {};
  return {best->x(), best->y()};
}

std::optional<Refusal> check_printed_scale(const SheetReading& sheet, Notices& warnings) {
  for (const auto& [side, scale] :
       {std::pair{Side::recto, sheet.recto}, std::pair{Side::verso, sheet.verso}}) {
    if (!scale.x || !scale.y) continue;
    const Eigen::Vector2d printed(*scale.x, *scale.y);
    if (scale_fault(printed) <= kPrintScaleTolerance) continue;
    const Finding finding =
        findings::printed_scale(Term{side == Side::recto ? "front" : "back"}, Share{printed.x()},
                                Share{printed.y()}, Term{likely_cause(printed)});
    if (scale_fault(printed) > kScaleFail) return finding;
    warnings.push_back(finding);
  }
  if (!sheet.recto.x && !sheet.verso.x) {
    warnings.push_back(findings::printed_scale_unknown());
  }
  return std::nullopt;
}

}  // namespace versolay
