#include "registration/print_scale.h"

#include <algorithm>
#include <cmath>

#include "core/numbers.h"
#include "core/translation.h"

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

std::string likely_cause(const Eigen::Vector2d& scale) {
  if ((scale.array() > 1.0).all()) {
    return tr("Borderless printing and \"fill the page\" enlarge a page: turn them off");
  }
  if ((scale.array() < 1.0).all()) return tr("\"Fit to page\" shrinks a page: turn it off");
  return tr("Turn off fit-to-page and borderless");
}

}  // namespace

double scale_fault(const Eigen::Vector2d& scale) { return (scale.array() - 1.0).abs().maxCoeff(); }

std::string scale_words(double scale) { return format_fixed(scale * 100, 1) + " %"; }

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
    const std::string message =
        tr("The {} was printed at {} of its width and {} of its height. {} in the print dialogue, "
           "and print at actual size (100 %).",
           side == Side::recto ? tr("front") : tr("back"), scale_words(printed.x()),
           scale_words(printed.y()), likely_cause(printed));
    if (scale_fault(printed) > kScaleFail) return Refusal{"printed_scale", message};
    warnings.push_back({"printed_scale", message});
  }
  if (!sheet.recto.x && !sheet.verso.x) {
    warnings.push_back({"printed_scale_unknown",
                        tr("The size of the print could not be checked: the files do not tell "
                           "their resolution, or a false one, and not all edges of the paper are "
                           "seen. Make sure that fit-to-page and borderless were off.")});
  }
  return std::nullopt;
}

}  // namespace versolay
