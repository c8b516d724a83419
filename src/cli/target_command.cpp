#include <fmt/format.h>

#include "app/target.h"
#include "cli/command.h"
#include "cli/option_values.h"
#include "cli/shared_options.h"
#include "profile/profile_json.h"
#include "profile/profile_match.h"
#include "words/commands.h"
#include "words/translation.h"

namespace versolay::cli {
namespace {

struct TargetOptions {
  TargetRequest request;
  std::optional<Paper> paper;
  std::optional<Turn> turn;
  std::filesystem::path corrected_by;  // a profile; empty: plain test sheets
};

/// Proof sheets are of the paper and the turn of their profile.
std::optional<Refusal> take_correction(TargetOptions& options) {
  if (options.corrected_by.empty()) {
    options.request.paper = options.paper.value_or(options.request.paper);
    options.request.turn = options.turn.value_or(options.request.turn);
    return std::nullopt;
  }
  const PrinterProfile profile = read_profile(options.corrected_by);
  options.request.paper = options.paper.value_or(profile.paper);
  options.request.turn = options.turn.value_or(profile.turn);
  options.request.corrected_by = profile.mean;
  return profile_mismatch(profile, options.request.paper, options.request.turn);
}

Outcome outcome_of(const TargetOptions& options, const TargetReport& report) {
  const TargetRequest& request = options.request;
  Outcome outcome;
  const Paper& paper = report.geometry.paper;
  const bool sideways = report.geometry.axis() == TurnAxis::vertical;
  outcome.text = tr(
      "{} contains {} ({} pages) for {} paper, run {}.\n\n"
      "Print it two-sided by hand, as you print your cards: same feed, same paper, same quality.\n"
      "  - Actual size (100 %). Fit to page, borderless and driver duplex off.\n"
      "  - Print all the fronts, one sheet at a time. Let them dry.\n"
      "  - Turn each sheet {} and print its back. Let it dry.\n"
      "  - Only then punch the holes: an office two-hole punch once on each short edge.\n"
      "  - Scan both sides on the glass, black card behind, 300 to 600 dpi, PNG or TIFF.\n"
      "Caution: never feed a punched or torn sheet through a printer; keep fingers clear of the\n"
      "punch; do not scan damp prints. The makers' manuals come first.",
      request.pdf.string(), trn("{} sheet", "{} sheets", request.sheets), report.pages, paper.name,
      report.run, sideways ? tr("sideways, like the page of a book,") : tr("over its top edge"));
  if (request.passes > 1) {
    outcome.text +=
        tr("\n\nEvery sheet goes through {} times on each side. {} has a box to tick for each "
           "pass, with its pages. Let the sheets dry between the passes.",
           request.passes, report.print_card->string());
  }
  outcome.document = {
      {"pdf", request.pdf.string()},
      {"geometry", request.geometry ? Json(request.geometry->string()) : Json()},
      {"print_card", report.print_card ? Json(report.print_card->string()) : Json()},
      {"paper", paper.name},
      {"paper_mm", {paper.width_mm, paper.height_mm}},
      {"turn", to_string(report.geometry.turn)},
      {"run", report.run},
      {"sheets", request.sheets},
      {"passes", request.passes},
      {"corrected_by", options.corrected_by.empty() ? Json() : Json(options.corrected_by.string())},
      {"pages", report.pages}};
  outcome.warnings = report.warnings;
  const std::string fed_round = fmt::format("{}", fmt::join(request.fed_round, ","));
  if (!fed_round.empty()) {
    outcome.text +=
        tr("\n\nSheets {} are printed rotated by 180 degrees on both sides. Feed them like the "
           "others.",
           fed_round);
  }
  outcome.next = tr(
      "print, punch and scan the sheets, then: versolay measure scans/*.png {}--out readings.json",
      fed_round.empty() ? "" : "--fed-round " + fed_round + " ");
  if (request.corrected_by) {
    outcome.text +=
        tr("\n\nThe backs are corrected: on these sheets they should land behind their "
           "fronts. versolay check {} readings.json --corrected says whether they do.",
           shell_word(options.corrected_by.string()));
  }
  return outcome;
}

}  // namespace

Command add_target(CLI::App& root) {
  auto options = make_options<TargetOptions>();
  TargetRequest* request = &options->request;
  CLI::App* parser = root.add_subcommand(
      "target", tr("Make the sheets to print: a PDF of numbered two-sided targets"));
  add_paper(*parser, options->paper, tr("that of --corrected-by, else a4"));
  add_turn(*parser, options->turn, tr("that of --corrected-by, else long-edge"));
  add_sheets(*parser, request->sheets);
  add_out(*parser, request->pdf, tr("PDF to write"))->required();
  add_typed(*parser, "--geometry", request->geometry, optional(output_file()),
            tr("JSON file to write: places of marks, holes"));
  add_typed(*parser, "--print-card", request->print_card, optional(output_file()),
            tr("PDF to write: one page to tick off while printing and scanning"));
  add_typed(*parser, "--label", request->label, words("WORDS"),
            tr("your own words, printed on every page"));
  add_typed(*parser, "--passes", request->passes, whole_number(),
            tr("how many times to feed every sheet on each side (2 to 6): 3 sheets then give as "
               "much information as 10 that are fed once"));
  add_fed_round(*parser, request->fed_round);
  add_typed(*parser, "--corrected-by", options->corrected_by, file(),
            tr("proof sheets: their backs are moved by this profile, for check --corrected"));
  add_typed(*parser, "--run", request->run, optional(words("CODE")),
            tr("code of this print run (default: a random one)"));
  parser->footer(tr("Example: versolay target --paper a4 --sheets 10 --out target.pdf"));
  return {parser, [options](const CommonOptions& common) -> Result<Outcome> {
            options->request.replace = common.force;
            if (const auto no = take_correction(*options)) return *no;
            return outcome_of(*options, run_target(options->request));
          }};
}

}  // namespace versolay::cli
