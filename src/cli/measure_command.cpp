#include "app/measure.h"
#include "cli/command.h"
#include "cli/option_values.h"
#include "cli/shared_options.h"
#include "cli/sheet_lines.h"
#include "core/finding_json.h"
#include "registration/readings_json.h"
#include "words/translation.h"

namespace versolay::cli {
Command add_measure(CLI::App& root) {
  auto request = make_options<MeasureRequest>();
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
            tr("what to read by (edges cannot tell a back of another sheet)"));
  add_fed_round(*parser, request->fed_round);
  add_typed(*parser, "--overlay", request->overlay, optional(file("FOLDER")),
            tr("folder for annotated pictures of the scans"));
  parser->footer(tr("Example: versolay measure scans/*.png --out readings.json"));
  return {parser, [request](const CommonOptions& common) -> Result<Outcome> {
            request->replace = common.force;
            const Readings readings = run_measure(*request, common.progress);
            if (!readings.sheets.empty())
              return outcome_of_readings(readings, request->out.string(), common.unit);
            Outcome outcome;  // what was rejected, and why, is of use to programs
            outcome.document = json_of(readings);
            const Refusal refusal = no_sheets(readings);
            outcome.document["refused"] = json_of(refusal);
            return outcome;
          }};
}

}  // namespace versolay::cli
