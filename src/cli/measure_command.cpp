#include "app/measure.h"
#include "cli/command.h"
#include "cli/sheet_lines.h"
#include "core/finding_json.h"
#include "core/translation.h"
#include "registration/readings_json.h"

namespace versolay::cli {
namespace {

struct MeasureOptions {
  std::vector<std::string> scans;
  std::string out;
  std::string datum = "auto";
  std::string overlay;
  std::string fed_round;
};

MeasureRequest measure_request(const MeasureOptions& options, const CommonOptions& common) {
  MeasureRequest request;
  request.scans.assign(options.scans.begin(), options.scans.end());
  request.out = options.out;
  request.replace = common.force;
  request.fed_round = option_sheets("--fed-round", options.fed_round);
  if (!options.overlay.empty()) request.overlay = options.overlay;
  request.datum = option_choice<DatumChoice>("--datum", options.datum,
                                             {{"auto", DatumChoice::automatic},
                                              {"holes", DatumChoice::holes},
                                              {"edges", DatumChoice::edges}});
  return request;
}

}  // namespace

Command add_measure(CLI::App& root) {
  auto options = make_options<MeasureOptions>();
  CLI::App* parser = root.add_subcommand(
      "measure", tr("Read scans of printed targets: how far each back landed from its front"));
  parser
      ->add_option("scans", options->scans,
                   tr("scans: PNG, JPEG, TIFF or PDF of scans, any order and orientation"))
      ->required();
  parser->add_option("--out", options->out, tr("readings to write (JSON)"))->required();
  parser
      ->add_option("--datum", options->datum,
                   tr("what to read by: auto, holes or edges (edges cannot tell a back of another "
                      "sheet)"))
      ->capture_default_str();
  parser->add_option("--fed-round", options->fed_round,
                     tr("sheets that were printed turned half round, as in 2,4,6 (see target)"));
  parser->add_option("--overlay", options->overlay,
                     tr("folder for annotated pictures of the scans"));
  parser->footer(tr("Example: versolay measure scans/*.png --out readings.json"));
  return {parser, [options](const CommonOptions& common) -> Result<Outcome> {
            const Readings readings = measure(measure_request(*options, common), common.progress);
            if (!readings.sheets.empty()) return outcome_of_readings(readings, options->out);
            Outcome outcome;  // what was rejected, and why, is of use to programs
            outcome.document = json_of(readings);
            const Refusal refusal = no_sheets(readings);
            outcome.document["refused"] = json_of(refusal);
            return outcome;
          }};
}

}  // namespace versolay::cli
