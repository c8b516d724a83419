#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "app/measure.h"
#include "cli/command.h"
#include "core/numbers.h"
#include "registration/readings_json.h"

namespace versolay::cli {
namespace {

struct Options {
  std::vector<std::string> scans;
  std::string out;
  std::string datum = "auto";
  std::string overlay;
};

MeasureRequest request_from(const Options& options, const CommonOptions& common) {
  MeasureRequest request;
  request.scans.assign(options.scans.begin(), options.scans.end());
  request.out = options.out;
  request.replace = common.force;
  if (!options.overlay.empty()) request.overlay = options.overlay;
  if (options.datum == "holes") {
    request.datum = DatumChoice::holes;
  } else if (options.datum == "edges") {
    request.datum = DatumChoice::edges;
  } else if (options.datum != "auto") {
    throw Error("--datum " + options.datum, "must be auto, holes or edges");
  }
  return request;
}

std::string sheet_line(const SheetReading& sheet) {
  const auto value = [](double v, int decimals) {
    return (v > 0 ? "+" : "") + format_fixed(v, decimals);
  };
  const auto u95 = [&](int i) { return 1.96 * std::sqrt(sheet.covariance(i, i)); };
  const auto edges = std::count_if(sheet.features.begin(), sheet.features.end(),
                                   [](const FeatureReading& f) { return f.normal.has_value(); });
  const auto holes = static_cast<std::ptrdiff_t>(sheet.features.size()) - edges;
  std::string read_from = holes > 0 ? fmt::format("{} holes", holes) : "";
  if (edges > 0) read_from += fmt::format("{}{} edge places", holes > 0 ? ", " : "", edges);
  return fmt::format("{:>5}  {:>7} +-{}  {:>7} +-{}  {:>7} +-{}   {}", sheet.sheet,
                     value(sheet.registration.dx_mm, 3), format_fixed(u95(0), 3),
                     value(sheet.registration.dy_mm, 3), format_fixed(u95(1), 3),
                     value(sheet.registration.rotation_mrad, 2), format_fixed(u95(2), 2),
                     read_from);
}

Outcome outcome_of(const Options& options, const Readings& readings) {
  Outcome outcome;
  outcome.text = fmt::format(
      "{} sheets read, written to {}. How far each back landed from its front, seen from the "
      "back:\n\n"
      "sheet   right(+) left(-)    down(+) up(-)   turned clockwise   read from\n"
      "             mm                 mm            mrad (+-: 95 %)",
      readings.sheets.size(), options.out);
  for (const SheetReading& sheet : readings.sheets) {
    outcome.text += "\n" + sheet_line(sheet);
    for (const Notice& n : sheet.warnings) {
      outcome.warnings.push_back({n.code, fmt::format("Sheet {}: {}", sheet.sheet, n.message)});
    }
  }
  for (const RejectedInput& r : readings.rejected) {
    outcome.warnings.push_back({r.code, "Left out: " + r.file + ": " + r.message});
  }
  outcome.document = json_of(readings);
  outcome.next =
      fmt::format("versolay profile {} --printer \"my printer\" --out printer.json", options.out);
  return outcome;
}

}  // namespace

Command add_measure(CLI::App& root) {
  auto options = make_options<Options>();
  CLI::App* parser = root.add_subcommand(
      "measure", "Read scans of printed targets: how far each back landed from its front");
  parser->add_option("scans", options->scans, "scans: PNG, JPEG or TIFF, any order and orientation")
      ->required();
  parser->add_option("--out", options->out, "readings to write (JSON)")->required();
  parser->add_option("--datum", options->datum, "what to read by: auto, holes or edges")
      ->capture_default_str();
  parser->add_option("--overlay", options->overlay, "folder for annotated pictures of the scans");
  parser->footer("Example: versolay measure scans/*.png --out readings.json");
  return {parser, [options](const CommonOptions& common) -> Result<Outcome> {
            auto readings = measure(request_from(*options, common), common.progress);
            if (!readings) return readings.refusal();
            return outcome_of(*options, readings.value());
          }};
}

}  // namespace versolay::cli
