#include "app/target.h"
#include "cli/command.h"
#include "core/translation.h"

namespace versolay::cli {
namespace {

struct TargetOptions {
  std::string paper = "a4";
  std::string turn = "long-edge";
  int sheets = 10;
  std::string out;
  std::string geometry;
  std::string print_card;
  std::string label;
  std::string run;
  std::string fed_round;
};

TargetRequest target_request(const TargetOptions& options, const CommonOptions& common) {
  TargetRequest request;
  request.paper = parse_paper(options.paper);
  request.turn = option_turn(options.turn);
  request.sheets = options.sheets;
  request.label = options.label;
  if (!options.run.empty()) request.run = options.run;
  request.fed_round = option_sheets("--fed-round", options.fed_round);
  request.pdf = options.out;
  if (!options.geometry.empty()) request.geometry = options.geometry;
  if (!options.print_card.empty()) request.print_card = options.print_card;
  request.replace = common.force;
  return request;
}

Outcome outcome_of(const TargetOptions& options, const TargetReport& report) {
  Outcome outcome;
  const Paper& paper = report.geometry.paper;
  const bool sideways = report.geometry.axis() == TurnAxis::vertical;
  outcome.text = tr(
      "{} holds {} sheets ({} pages) for {} paper, run {}.\n\n"
      "Print it two-sided by hand, as you print your cards: same feed, same paper, same quality.\n"
      "  - Actual size (100 %). Fit to page, borderless and driver duplex off.\n"
      "  - Print all the fronts, one sheet at a time. Let them dry.\n"
      "  - Turn each sheet {} and print its back. Let it dry.\n"
      "  - Only then punch the holes: an office two-hole punch once on each short edge.\n"
      "  - Scan both sides on the glass, black card behind, 300 to 600 dpi, PNG or TIFF.\n"
      "Caution: never feed a punched or torn sheet through a printer; keep fingers clear of the\n"
      "punch; do not scan damp prints. The makers' manuals come first.",
      options.out, options.sheets, report.pages, paper.name, report.run,
      sideways ? tr("sideways, like the page of a book,") : tr("over its top edge"));
  outcome.document = {
      {"pdf", options.out},
      {"geometry", options.geometry.empty() ? Json() : Json(options.geometry)},
      {"print_card", options.print_card.empty() ? Json() : Json(options.print_card)},
      {"paper", paper.name},
      {"paper_mm", {paper.width_mm, paper.height_mm}},
      {"turn", to_string(report.geometry.turn)},
      {"run", report.run},
      {"sheets", options.sheets},
      {"pages", report.pages}};
  outcome.warnings = report.warnings;
  if (!options.fed_round.empty()) {
    outcome.text +=
        tr("\n\nSheets {} come out turned half round on both sides. Feed them like the others.",
           options.fed_round);
  }
  outcome.next = tr(
      "print, punch and scan the sheets, then: versolay measure scans/*.png {}--out readings.json",
      options.fed_round.empty() ? "" : "--fed-round " + options.fed_round + " ");
  return outcome;
}

}  // namespace

Command add_target(CLI::App& root) {
  auto options = make_options<TargetOptions>();
  CLI::App* parser = root.add_subcommand(
      "target", tr("Make the sheets to print: a PDF of numbered two-sided targets"));
  parser->add_option("--paper", options->paper, tr("a4, a3, letter, tabloid, or WxHmm"))
      ->capture_default_str();
  parser
      ->add_option("--turn", options->turn,
                   tr("how the sheet is turned for its back: long-edge or short-edge"))
      ->capture_default_str();
  parser->add_option("--sheets", options->sheets, tr("number of sheets"))->capture_default_str();
  parser->add_option("--out", options->out, tr("PDF to write"))->required();
  parser->add_option("--geometry", options->geometry,
                     tr("JSON file to write: places of marks, holes"));
  parser->add_option("--print-card", options->print_card,
                     tr("PDF to write: one page to tick off while printing and scanning"));
  parser->add_option("--label", options->label, tr("your own words, printed on every page"));
  parser->add_option(
      "--fed-round", options->fed_round,
      tr("sheets to print turned half round, as in 2,4,6: a check of the whole chain"));
  parser->add_option("--run", options->run, tr("code of this print run (default: a random one)"));
  parser->footer(tr("Example: versolay target --paper a4 --sheets 10 --out target.pdf"));
  return {parser, [options](const CommonOptions& common) -> Result<Outcome> {
            return outcome_of(*options, make_target(target_request(*options, common)));
          }};
}

}  // namespace versolay::cli
