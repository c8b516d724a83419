#include <fmt/format.h>

#include <cmath>

#include "app/rehearse.h"
#include "cli/command.h"
#include "cli/option_values.h"
#include "cli/shared_options.h"
#include "core/numbers.h"
#include "core/registration_json.h"
#include "words/say.h"
#include "words/translation.h"

namespace versolay::cli {
namespace {

/// A sheet that nearly fills the glass is laid along its frame.
void lay_large_sheets(rehearse::ScannerSettings& scanner) {
  if (scanner.coverage == rehearse::Coverage::whole) return;
  scanner.margin_mm = scanner.coverage == rehearse::Coverage::halves ? 2.0 : 3.0;
  scanner.placement_mm = 0.5;
  scanner.skew_deg = 0.4;
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

Outcome outcome_of(const RehearseRequest& request, const RehearseReport& report) {
  Outcome outcome;
  const Eigen::Vector3d rms = rms_error(report.sheets);
  const double before = std::hypot(report.mean_truth.dx_mm, report.mean_truth.dy_mm);
  const double after = std::hypot(report.proof_mean_truth.dx_mm, report.proof_mean_truth.dy_mm);
  outcome.text =
      tr("A dry run on simulated prints and scans, all of it in {}.\n"
         "How far each back landed from its front, seen from the back:\n\n",
         request.folder.string());
  outcome.text += table(report.sheets);
  outcome.text += tr(
      "\n\nThe readings are wrong by {} um left-right, {} um up-down and {} mrad (rms).\n\n"
      "The simulated printer is off by {} mm on average. With its backs corrected by the profile "
      "that was made of these readings, {} mm of that is left ({} sheets cannot tell the constant "
      "part any better than that; more sheets can). Proof sheets, printed from corrected.pdf:\n\n",
      format_fixed(rms[0] * 1e3, 0), format_fixed(rms[1] * 1e3, 0), format_fixed(rms[2], 3),
      format_fixed(before, 2), format_fixed(after, 2), request.sheets);
  outcome.text += table(report.proof);
  outcome.document = {{"folder", request.folder.string()},
                      {"seed", request.settings.seed},
                      {"dpi", request.settings.scanner.dpi},
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
  outcome.next = fmt::format("versolay advise {}/profile.json --card 63x88 --grid 3x3",
                             request.folder.string());
  return outcome;
}

}  // namespace

Command add_rehearse(CLI::App& root) {
  auto request = make_options<RehearseRequest>();
  rehearse::ScannerSettings& scanner = request->settings.scanner;
  scanner.dpi = 300;
  request->settings.seed = 1;
  CLI::App* parser = root.add_subcommand(
      "rehearse",
      tr("Try the whole job on a simulated printer and scanner, truth beside estimate"));
  add_out(*parser, request->folder, tr("folder for everything that is made"))
      ->type_name("FOLDER")
      ->required();
  add_paper(*parser, request->paper);
  add_turn(*parser, request->turn);
  add_sheets(*parser, request->sheets);
  add_typed(*parser, "--passes", request->settings.passes.passes, whole_number(),
            tr("feed every sheet so many times on each side"));
  add_typed(*parser, "--proof-sheets", request->proof_sheets, whole_number(),
            tr("sheets printed with the correction"));
  add_typed(*parser, "--dpi", scanner.dpi, number("DPI"), tr("of the simulated scanner"));
  add_seed(*parser, request->settings.seed)
      ->description(tr("another seed, another printer's luck"));
  using rehearse::Coverage;
  add_typed(*parser, "--pictures", scanner.coverage,
            choice<Coverage>({{"whole", Coverage::whole},
                              {"halves", Coverage::halves},
                              {"shifted", Coverage::shifted}}),
            tr("of each side: whole; halves, two that overlap (a sheet larger than the scanner); "
               "shifted, two (a sheet as long as the scanner)"));
  using rehearse::HolesMade;
  add_typed(*parser, "--holes", request->settings.holes.made,
            choice<HolesMade>({{"punched", HolesMade::punched},
                               {"pricked", HolesMade::pricked},
                               {"none", HolesMade::none}}),
            tr("how the holes are made"));
  add_typed(*parser, "--scans", request->settings.scans_per_side, whole_number(),
            tr("of each side, lifted and laid down in between"));
  parser->add_flag("--turn-repeats", scanner.turn_repeats,
                   tr("rotate every second of them by 180 degrees"));
  parser->footer(tr("Example: versolay rehearse --out dry-run"));
  return {parser, [request](const CommonOptions& common) -> Result<Outcome> {
            request->replace = common.force;
            lay_large_sheets(request->settings.scanner);
            auto report = run_rehearse(*request, common.progress);
            if (!report) return report.refusal();
            return outcome_of(*request, report.value());
          }};
}

}  // namespace versolay::cli
