#include <fmt/format.h>

#include <cmath>

#include "app/rehearse.h"
#include "cli/command.h"
#include "core/numbers.h"
#include "core/registration_json.h"
#include "core/translation.h"
#include "words/say.h"

namespace versolay::cli {
namespace {

struct RehearseOptions {
  std::string out;
  std::string paper = "a4";
  std::string turn = "long-edge";
  int sheets = 6;
  int proof_sheets = 4;
  double dpi = 300.0;
  std::uint64_t seed = 1;
  std::string pictures = "whole";
  std::string holes = "punched";
  int scans = 1;
  bool turn_repeats = false;
};

rehearse::Coverage coverage_from(const std::string& text) {
  using rehearse::Coverage;
  return option_choice<Coverage>(
      "--pictures", text,
      {{"whole", Coverage::whole}, {"halves", Coverage::halves}, {"shifted", Coverage::shifted}});
}

rehearse::HolesMade holes_from(const std::string& text) {
  using rehearse::HolesMade;
  return option_choice<HolesMade>("--holes", text,
                                  {{"punched", HolesMade::punched},
                                   {"pricked", HolesMade::pricked},
                                   {"none", HolesMade::none}});
}

void set_pictures(const RehearseOptions& options, rehearse::RehearsalSettings& settings) {
  rehearse::ScannerSettings& scanner = settings.scanner;
  scanner.coverage = coverage_from(options.pictures);
  scanner.turn_repeats = options.turn_repeats;
  settings.scans_per_side = options.scans;
  if (scanner.coverage == rehearse::Coverage::whole) return;
  // A sheet that nearly fills the glass is laid along its frame.
  scanner.margin_mm = scanner.coverage == rehearse::Coverage::halves ? 2.0 : 3.0;
  scanner.placement_mm = 0.5;
  scanner.skew_deg = 0.4;
}

RehearseRequest rehearse_request(const RehearseOptions& options, const CommonOptions& common) {
  RehearseRequest request;
  request.folder = options.out;
  request.paper = parse_paper(options.paper);
  request.turn = option_turn(options.turn);
  request.sheets = options.sheets;
  request.proof_sheets = options.proof_sheets;
  request.settings.seed = options.seed;
  request.settings.scanner.dpi = options.dpi;
  request.settings.holes.made = holes_from(options.holes);
  if (options.scans < 1 || options.scans > 9) {
    throw Error(fmt::format("--scans {}", options.scans), tr("must be from 1 to 9"));
  }
  set_pictures(options, request.settings);
  request.replace = common.force;
  if (options.sheets < 2 || options.sheets > 60) {
    throw Error(fmt::format("--sheets {}", options.sheets), tr("must be from 2 to 60"));
  }
  if (options.proof_sheets < 1 || options.proof_sheets > 60) {
    throw Error(fmt::format("--proof-sheets {}", options.proof_sheets), tr("must be from 1 to 60"));
  }
  if (!(options.dpi >= 200 && options.dpi <= 1200)) {
    throw Error("--dpi " + format_number(options.dpi, 1), tr("must be from 200 to 1200"));
  }
  return request;
}

std::string signed_fixed(double value, int decimals) {
  return (value > 0 ? "+" : "") + format_fixed(value, decimals);
}

TextTable table(const std::vector<RehearsedSheet>& sheets) {
  TextTable table;
  table.head = {tr("sheet"),
                tr("true\nright, mm"),
                tr("true\ndown, mm"),
                tr("true\nturn, mrad"),
                tr("read\nright, mm"),
                tr("read\ndown, mm"),
                tr("read\nturn, mrad"),
                tr("wrong by\nright, um"),
                tr("wrong by\ndown, um"),
                tr("wrong by\nturn, mrad")};
  for (const RehearsedSheet& s : sheets) {
    std::vector<std::string> row = {std::to_string(s.sheet)};
    const auto add = [&](double value, int decimals) {
      row.push_back(signed_fixed(value, decimals));
    };
    const auto add_all = [&](const Registration& r) {
      add(r.dx_mm, 3);
      add(r.dy_mm, 3);
      add(r.rotation_mrad, 2);
    };
    add_all(s.truth);
    if (s.reading) {
      const Registration& r = s.reading->registration;
      add_all(r);
      add((r.dx_mm - s.truth.dx_mm) * 1e3, 0);
      add((r.dy_mm - s.truth.dy_mm) * 1e3, 0);
      add(r.rotation_mrad - s.truth.rotation_mrad, 3);
    } else {
      row.emplace_back(tr("left out"));
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

/// Root mean square of estimate minus truth: dx mm, dy mm, rotation mrad.
Eigen::Vector3d rms_error(const std::vector<RehearsedSheet>& sheets) {
  Eigen::Vector3d sum = Eigen::Vector3d::Zero();
  int read = 0;
  for (const RehearsedSheet& s : sheets) {
    if (!s.reading) continue;
    sum += (s.reading->registration.vec() - s.truth.vec()).head<3>().array().square().matrix();
    ++read;
  }
  return (sum / std::max(1, read)).cwiseSqrt();
}

Json sheets_json(const std::vector<RehearsedSheet>& sheets) {
  Json list = Json::array();
  for (const RehearsedSheet& s : sheets) {
    list.push_back({{"sheet", s.sheet},
                    {"truth", json_of(s.truth)},
                    {"estimate", s.reading ? json_of(s.reading->registration) : Json()}});
  }
  return list;
}

Json error_json(const std::vector<RehearsedSheet>& sheets) {
  const Eigen::Vector3d rms = rms_error(sheets);
  return {{"dx_mm", rounded(rms[0], 6)},
          {"dy_mm", rounded(rms[1], 6)},
          {"rotation_mrad", rounded(rms[2], 6)}};
}

Outcome outcome_of(const RehearseOptions& options, const RehearseReport& report) {
  Outcome outcome;
  const Eigen::Vector3d rms = rms_error(report.sheets);
  const double before = std::hypot(report.mean_truth.dx_mm, report.mean_truth.dy_mm);
  const double after = std::hypot(report.proof_mean_truth.dx_mm, report.proof_mean_truth.dy_mm);
  outcome.text =
      tr("A dry run on simulated prints and scans, all of it in {}.\n"
         "How far each back landed from its front, seen from the back:\n\n",
         options.out);
  outcome.text += table(report.sheets);
  outcome.text += tr(
      "\n\nThe readings are wrong by {} um left-right, {} um up-down and {} mrad (rms).\n\n"
      "The simulated printer is off by {} mm on average. With its backs corrected by the profile "
      "that was made of these readings, {} mm of that is left ({} sheets cannot tell the constant "
      "part any better than that; more sheets can). Proof sheets, printed from corrected.pdf:\n\n",
      format_fixed(rms[0] * 1e3, 0), format_fixed(rms[1] * 1e3, 0), format_fixed(rms[2], 3),
      format_fixed(before, 2), format_fixed(after, 2), options.sheets);
  outcome.text += table(report.proof);
  outcome.document = {{"folder", options.out},
                      {"seed", options.seed},
                      {"dpi", options.dpi},
                      {"sheets", sheets_json(report.sheets)},
                      {"rms_error", error_json(report.sheets)},
                      {"printer_mean", json_of(report.mean_truth)},
                      {"profile_mean", json_of(report.profile.mean)},
                      {"remaining_mean", json_of(report.proof_mean_truth)},
                      {"proof", sheets_json(report.proof)}};
  for (const RejectedInput& r : report.rejected) {
    outcome.warnings.push_back(
        {r.why.code, tr("Left out: {}: {}", words::list_of(r.files), words::say(r.why))});
  }
  outcome.next =
      fmt::format("versolay advise {}/profile.json --card 63x88 --grid 3x3", options.out);
  return outcome;
}

}  // namespace

Command add_rehearse(CLI::App& root) {
  auto options = make_options<RehearseOptions>();
  CLI::App* parser = root.add_subcommand(
      "rehearse",
      tr("Try the whole job on a simulated printer and scanner, truth beside estimate"));
  parser->add_option("--out", options->out, tr("folder for everything that is made"))->required();
  parser->add_option("--paper", options->paper, tr("a4, a3, letter, tabloid, or WxHmm"))
      ->capture_default_str();
  parser->add_option("--turn", options->turn, tr("long-edge or short-edge"))->capture_default_str();
  parser->add_option("--sheets", options->sheets, tr("calibration sheets"))->capture_default_str();
  parser
      ->add_option("--proof-sheets", options->proof_sheets,
                   tr("sheets printed with the correction"))
      ->capture_default_str();
  parser->add_option("--dpi", options->dpi, tr("of the simulated scanner"))->capture_default_str();
  parser->add_option("--seed", options->seed, tr("another seed, another printer's luck"))
      ->capture_default_str();
  parser
      ->add_option("--pictures", options->pictures,
                   tr("of each side: whole; halves, two that overlap (a sheet larger than the "
                      "scanner); shifted, two (a sheet as long as the scanner)"))
      ->capture_default_str();
  parser->add_option("--holes", options->holes, tr("punched, pricked or none"))
      ->capture_default_str();
  parser->add_option("--scans", options->scans, tr("of each side, lifted and laid down in between"))
      ->capture_default_str();
  parser->add_flag("--turn-repeats", options->turn_repeats,
                   tr("turn every second of them half round"));
  parser->footer(tr("Example: versolay rehearse --out dry-run"));
  return {parser, [options](const CommonOptions& common) -> Result<Outcome> {
            auto report = rehearse_job(rehearse_request(*options, common), common.progress);
            if (!report) return report.refusal();
            return outcome_of(*options, report.value());
          }};
}

}  // namespace versolay::cli
