#include "app/rehearse.h"
#include "app/rehearse_job.h"
#include "cli/bad_option.h"
#include "cli/command.h"
#include "cli/option_values.h"
#include "cli/rehearsal_outcome.h"
#include "cli/shared_options.h"
#include "words/findings.h"
#include "words/translation.h"

namespace versolay::cli {
namespace {

struct RehearseOptions {
  RehearseRequest request;
  std::optional<std::filesystem::path> job;
  std::optional<std::filesystem::path> profile;  // that the job was corrected by
  bool verbose = false;
};

/// A sheet that nearly fills the glass is laid along its frame.
void lay_large_sheets(rehearse::ScannerSettings& scanner) {
  if (scanner.coverage == rehearse::Coverage::whole) return;
  scanner.margin_mm = scanner.coverage == rehearse::Coverage::halves ? 2.0 : 3.0;
  scanner.placement_mm = 0.5;
  scanner.skew_deg = 0.4;
}

/// What is stated of a target that is made does not go with a PDF that is there already.
void require_options_that_go_together(const CLI::App& parser, const RehearseOptions& options) {
  const auto stated = [&](const char* option) { return parser.count(option) > 0; };
  if (options.job && options.request.target) {
    throw BadOption("--job", findings::two_rehearsals());
  }
  if (options.profile && !options.job) {
    throw BadOption("--profile", findings::profile_is_for_jobs());
  }
  if (options.job || options.request.target) {
    for (const char* option : {"--paper", "--turn", "--passes"}) {
      if (!stated(option)) continue;
      throw BadOption(option, findings::own_pdf_states_it());
    }
  }
  if (!options.job) return;
  for (const char* option : {"--proof-sheets", "--holes"}) {
    if (stated(option)) throw BadOption(option, findings::not_with_option("--job"));
  }
}

RehearseJobRequest job_request(const RehearseOptions& options) {
  const RehearseRequest& r = options.request;
  RehearseJobRequest job;
  job.folder = r.folder;
  job.job = *options.job;
  job.profile = options.profile;
  job.printer_like = r.printer_like;
  job.sheets = r.sheets;
  job.seed = r.seed;
  job.settings = r.settings;
  job.replace = r.replace;
  return job;
}

}  // namespace

Command add_rehearse(CLI::App& root) {
  auto options = make_options<RehearseOptions>();
  RehearseRequest& request = options->request;
  rehearse::ScannerSettings& scanner = request.settings.scanner;
  scanner.dpi = 300;
  CLI::App* parser = root.add_subcommand(
      "rehearse",
      tr("Practise on a simulated printer and scanner: the whole job, or your own PDF"));
  add_out(*parser, request.folder, tr("folder for all output"))->type_name("FOLDER")->required();
  add_typed(*parser, "--target", request.target, optional(file()),
            tr("your own target, as versolay target wrote it; without it one is made"));
  add_typed(*parser, "--job", options->job, optional(file()),
            tr("your own deck, as versolay impose wrote it"));
  add_typed(*parser, "--profile", options->profile, optional(file()),
            tr("with --job: the profile that the deck was laid out with"));
  add_typed(*parser, "--printer-like", request.printer_like, optional(file()),
            tr("simulate the printer of this profile (default with --job: the one of --profile)"));
  add_paper(*parser, request.paper, tr("that of --printer-like, else a4"));
  add_turn(*parser, request.turn, tr("that of --printer-like, else long-edge"));
  add_typed(*parser, "--sheets", request.sheets, optional(whole_number()),
            tr("number of sheets; without it 6, or all of your PDF"));
  add_typed(*parser, "--passes", request.settings.passes.passes, whole_number(),
            tr("how many times to feed every sheet on each side"));
  add_typed(*parser, "--proof-sheets", request.proof_sheets, whole_number(),
            tr("sheets printed with the correction"));
  add_typed(*parser, "--dpi", scanner.dpi, number("DPI"), tr("of the simulated scanner"));
  add_typed(
      *parser, "--seed", request.seed, optional(seed()),
      tr("seed of the random numbers, to repeat a run exactly; without it a new one each time"));
  using rehearse::Coverage;
  add_typed(*parser, "--pictures", scanner.coverage,
            choice<Coverage>({{"whole", Coverage::whole},
                              {"halves", Coverage::halves},
                              {"shifted", Coverage::shifted}}),
            tr("of each side: whole; halves, two that overlap (a sheet larger than the scanner); "
               "shifted, two (a sheet as long as the scanner)"));
  using rehearse::HolesMade;
  add_typed(*parser, "--holes", request.settings.holes.made,
            choice<HolesMade>({{"punched", HolesMade::punched},
                               {"pricked", HolesMade::pricked},
                               {"none", HolesMade::none}}),
            tr("how the holes are made"));
  add_typed(*parser, "--scans", request.settings.scans_per_side, whole_number(),
            tr("of each side, lifted and laid down in between"));
  parser->add_flag("--turn-repeats", scanner.turn_repeats,
                   tr("rotate every second of them by 180 degrees"));
  parser->add_flag("--verbose", options->verbose,
                   tr("add the table of sheets: truth, reading, and how far they differ"));
  parser->footer(
      tr("Example: versolay rehearse --out dry-run\n"
         "Your own target: versolay rehearse --target target.pdf --out dry-run\n"
         "Your own deck: versolay rehearse --job deck.pdf --profile club.json --out dry-run"));
  return {parser, [options, parser](const CommonOptions& common) -> Result<Outcome> {
            options->request.replace = common.force;
            require_options_that_go_together(*parser, *options);
            lay_large_sheets(options->request.settings.scanner);
            if (options->job) {
              const RehearseJobRequest job = job_request(*options);
              const auto report = run_rehearse_job(job, common.progress);
              if (!report) return report.refusal();
              return outcome_of(job, report.value(), options->verbose, common.unit);
            }
            const auto report = run_rehearse(options->request, common.progress);
            if (!report) return report.refusal();
            return outcome_of(options->request, report.value(), options->verbose, common.unit);
          }};
}

}  // namespace versolay::cli
