#include "app/readings.h"
#include "cli/command.h"
#include "cli/option_values.h"
#include "cli/shared_options.h"
#include "cli/sheet_lines.h"
#include "words/commands.h"
#include "words/findings.h"
#include "words/translation.h"

namespace versolay::cli {
namespace {

struct ReadingsOptions {
  bool make_template = false;
  EyeTemplateRequest blank;     // the table to fill in
  std::filesystem::path table;  // the one that was filled in
  EyeTarget target;             // as far as it was said
  std::filesystem::path geometry;
};

EyeTarget target_from(const ReadingsOptions& options) {
  // Paper and turn may come from the job of the folder; the geometry is said here and now.
  return options.geometry.empty() ? options.target : target_of_geometry(options.geometry);
}

Outcome make_template(const ReadingsOptions& options, const CommonOptions& common) {
  const EyeTarget target = target_from(options);
  EyeTemplateRequest request = options.blank;
  request.paper = target.paper.value_or(parse_paper("a4"));
  request.turn = target.turn.value_or(Turn::long_edge);
  request.replace = common.force;
  make_eye_template(request);
  const std::string out = request.out.string();
  Outcome outcome;
  outcome.text =
      tr("{} is the table to fill in, for {} sheets of the {} target ({} turn). Its first lines\n"
         "say what to read. Open it with a spreadsheet program or print it; save it as CSV.",
         out, request.sheets, request.paper.name, to_string(request.turn));
  outcome.document = {{"table", out},
                      {"by", to_string(request.method)},
                      {"paper", request.paper.name},
                      {"turn", to_string(request.turn)},
                      {"sheets", request.sheets}};
  outcome.next = tr("fill it in, then: versolay readings {} --out readings.json", shell_word(out));
  return outcome;
}

Result<Outcome> read_table(const ReadingsOptions& options, const CommonOptions& common) {
  const auto result =
      read_by_eye({options.table, target_from(options), options.blank.out, common.force});
  if (!result) return result.refusal();
  Outcome outcome =
      outcome_of_readings(result.value().readings, options.blank.out.string(), true, common.unit);
  const Notices& rows = result.value().notices;
  outcome.warnings.insert(outcome.warnings.begin(), rows.begin(), rows.end());
  return outcome;
}

}  // namespace

Command add_readings(CLI::App& root) {
  auto options = make_options<ReadingsOptions>();
  CLI::App* parser = root.add_subcommand(
      "readings", tr("No scanner? Make a table for readings by eye, and read it back"));
  auto* table =
      add_typed(*parser, "table", options->table, file(), tr("the table, filled in (CSV)"));
  auto* make =
      parser->add_flag("--template", options->make_template, tr("write the table to fill in"));
  table->excludes(make);
  EyeTemplateRequest& blank = options->blank;
  add_out(*parser, blank.out, tr("readings (JSON), or the table (CSV), to write"))->required();
  add_typed(
      *parser, "--by", blank.method,
      choice<EyeMethod>({{"holes", EyeMethod::holes},
                         {"verniers", EyeMethod::verniers},
                         {"values", EyeMethod::values}}),
      tr("what is read: holes (pricks), verniers (against a light), or values that were measured "
         "in another way"));
  auto* paper = add_paper(*parser, options->target.paper, tr("a4"));
  auto* turn = add_turn(*parser, options->target.turn, tr("long-edge"));
  auto* geometry = add_typed(*parser, "--geometry", options->geometry, file(),
                             tr("paper and turn, from target --geometry"));
  geometry->excludes(paper)->excludes(turn);
  add_sheets(*parser, blank.sheets);
  add_typed(*parser, "--separator", blank.separator,
            choice<char>({{"comma", ','}, {"semicolon", ';'}, {"tab", '\t'}}),
            tr("between cells. With a decimal comma, spreadsheet programs need semicolons"));
  parser->footer(
      tr("Example: versolay readings --template --paper a4 --turn long-edge --out table.csv\n"
         "         versolay readings table.csv --out readings.json"));
  return {parser, [options](const CommonOptions& common) -> Result<Outcome> {
            if (options->make_template) return make_template(*options, common);
            if (options->table.empty()) {
              throw Error("readings", findings::no_table_named());
            }
            return read_table(*options, common);
          }};
}

}  // namespace versolay::cli
