#include "app/readings.h"
#include "cli/command.h"
#include "cli/sheet_lines.h"
#include "core/translation.h"

namespace versolay::cli {
namespace {

struct ReadingsOptions {
  std::string table;
  bool make_template = false;
  std::string by = "holes";
  std::string paper;
  std::string turn;
  std::string geometry;
  int sheets = 10;
  std::string separator = "comma";
  std::string out;
};

EyeTarget target_from(const ReadingsOptions& options) {
  // Paper and turn may come from the job of the folder; the geometry is said here and now.
  if (!options.geometry.empty()) return target_of_geometry(options.geometry);
  EyeTarget target;
  if (!options.paper.empty()) target.paper = parse_paper(options.paper);
  if (!options.turn.empty()) target.turn = option_turn(options.turn);
  return target;
}

Outcome make_template(const ReadingsOptions& options, const CommonOptions& common) {
  const char separator = option_choice<char>("--separator", options.separator,
                                             {{"comma", ','}, {"semicolon", ';'}, {"tab", '\t'}});
  const auto method = eye_method_from(options.by);
  if (!method) throw no_such_choice("--by", options.by, {"holes", "verniers", "values"});
  const EyeTarget target = target_from(options);
  const EyeTemplateRequest request{*method,
                                   target.paper.value_or(parse_paper("a4")),
                                   target.turn.value_or(Turn::long_edge),
                                   options.sheets,
                                   separator,
                                   options.out,
                                   common.force};
  make_eye_template(request);
  Outcome outcome;
  outcome.text = tr(
      "{} is the table to fill in, for {} sheets of the {} target ({} turn). It says in its first\n"
      "lines what to read. Open it with a spreadsheet program or print it; save it as CSV.",
      options.out, options.sheets, request.paper.name, to_string(request.turn));
  outcome.document = {{"table", options.out},
                      {"by", options.by},
                      {"paper", request.paper.name},
                      {"turn", to_string(request.turn)},
                      {"sheets", options.sheets}};
  outcome.next = tr("fill it in, then: versolay readings {} --out readings.json", options.out);
  return outcome;
}

Result<Outcome> read_table(const ReadingsOptions& options, const CommonOptions& common) {
  const auto result = read_by_eye({options.table, target_from(options), options.out, common.force});
  if (!result) return result.refusal();
  Outcome outcome = outcome_of_readings(result.value().readings, options.out);
  const Notices& rows = result.value().notices;
  outcome.warnings.insert(outcome.warnings.begin(), rows.begin(), rows.end());
  return outcome;
}

}  // namespace

Command add_readings(CLI::App& root) {
  auto options = make_options<ReadingsOptions>();
  CLI::App* parser = root.add_subcommand(
      "readings", tr("No scanner? Make a table for readings by eye, and read it back"));
  auto* table = parser->add_option("table", options->table, tr("the table, filled in (CSV)"));
  auto* make =
      parser->add_flag("--template", options->make_template, tr("write the table to fill in"));
  table->excludes(make);
  parser->add_option("--out", options->out, tr("readings (JSON), or the table (CSV), to write"))
      ->required();
  parser
      ->add_option("--by", options->by,
                   tr("what is read: holes (pricks), verniers (against a light), or values that "
                      "were measured in another way"))
      ->capture_default_str();
  auto* paper =
      parser->add_option("--paper", options->paper, tr("a4, a3, letter, tabloid, or WxHmm"));
  auto* turn =
      parser->add_option("--turn", options->turn, tr("long-edge or short-edge, as of the target"));
  auto* geometry = parser->add_option("--geometry", options->geometry,
                                      tr("paper and turn, from target --geometry"));
  geometry->excludes(paper)->excludes(turn);
  parser->add_option("--sheets", options->sheets, tr("number of sheets"))->capture_default_str();
  parser
      ->add_option(
          "--separator", options->separator,
          tr("comma, semicolon or tab. With a decimal comma, spreadsheet programs want semicolons"))
      ->capture_default_str();
  parser->footer(
      tr("Example: versolay readings --template --paper a4 --turn long-edge --out table.csv\n"
         "         versolay readings table.csv --out readings.json"));
  return {parser, [options](const CommonOptions& common) -> Result<Outcome> {
            if (options->make_template) return make_template(*options, common);
            if (options->table.empty()) {
              throw Error("readings",
                          tr("name the table that was filled in, or make one with --template"));
            }
            return read_table(*options, common);
          }};
}

}  // namespace versolay::cli
