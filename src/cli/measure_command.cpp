#include "app/measure.h"
#include "cli/command.h"
#include "cli/option_values.h"
#include "cli/shared_options.h"
#include "cli/sheet_lines.h"
#include "core/finding_json.h"
#include "registration/fronts_json.h"
#include "registration/readings_json.h"
#include "words/translation.h"

namespace versolay::cli {
namespace {

struct MeasureOptions {
  MeasureRequest request;
  bool fronts = false;
  bool verbose = false;
};

/// What was rejected, and why, is of use to programs.
Outcome nothing_read(Json document, const Refusal& refusal) {
  Outcome outcome;
  outcome.document = std::move(document);
  outcome.document["refused"] = json_of(refusal);
  return outcome;
}

Outcome read_sheets(const MeasureRequest& request, bool verbose, const CommonOptions& common) {
  const Readings readings = run_measure(request, common.progress);
  if (readings.sheets.empty()) return nothing_read(json_of(readings), no_sheets(readings));
  return outcome_of_readings(readings, request.out.string(), verbose, common.unit);
}

Outcome read_fronts(const MeasureRequest& request, const CommonOptions& common) {
  const Fronts fronts = run_measure_fronts(request, common.progress);
  if (fronts.fronts.empty()) return nothing_read(json_of(fronts), no_fronts(fronts));
  return outcome_of_fronts(fronts, request.out.string(), common.unit);
}

}  // namespace

Command add_measure(CLI::App& root) {
  auto options = make_options<MeasureOptions>();
  MeasureRequest* request = &options->request;
  CLI::App* parser = root.add_subcommand(
      "measure", tr("Read scans of printed targets: how far each back landed from its front"));
  add_several(*parser, "scans", request->scans, file(),
              tr("scans: PNG, JPEG, TIFF or PDF of scans, or folders of them; any order, any "
                 "orientation"))
      ->required();
  add_out(*parser, request->out, tr("readings to write (JSON)"))->required();
  add_typed(*parser, "--datum", request->datum,
            choice<DatumChoice>({{"auto", DatumChoice::automatic},
                                 {"holes", DatumChoice::holes},
                                 {"edges", DatumChoice::edges}}),
            tr("what to read by (edges do not reveal a back on the wrong sheet)"));
  add_fed_round(*parser, request->fed_round);
  add_typed(*parser, "--overlay", request->overlay, optional(file("FOLDER")),
            tr("folder for annotated pictures of the scans"));
  parser->add_flag("--fronts", options->fronts,
                   tr("read fronts of a job whose backs are not printed yet, for impose "
                      "--fitted-to; all four edges of the paper must show"));
  parser->add_flag(
      "--verbose", options->verbose,
      tr("show what else the sheets reveal: the other turn, repeated scans, rotated sheets"));
  parser->footer(tr("Example: versolay measure scans/*.png --out readings.json"));
  return {parser, [options](const CommonOptions& common) -> Result<Outcome> {
            options->request.replace = common.force;
            return options->fronts ? read_fronts(options->request, common)
                                   : read_sheets(options->request, options->verbose, common);
          }};
}

}  // namespace versolay::cli
