#include "app/rehearse.h"

#include <map>

#include "app/correct.h"
#include "app/measure.h"
#include "app/profile.h"
#include "app/target.h"
#include "core/files.h"
#include "profile/profile_json.h"
#include "rehearse/simulate.h"
#include "words/translation.h"

namespace versolay {
namespace {

void prepare(const RehearseRequest& request) {
  make_folder(request.folder);
  if (!request.replace && !std::filesystem::is_empty(request.folder)) {
    throw Error(
        request.folder.string(),
        tr("is not empty. Name a new folder, or use --force to replace the rehearsal in it"));
  }
}

/// Prints a PDF on simulated sheets and scans them; then reads the scans as anybody would.
/// @param page_from_artwork  what the PDF does to the back artwork before it is printed; the truth
///        is where the artwork landed, not where the page did.
Result<std::vector<RehearsedSheet>> print_and_measure(
    const RehearseRequest& request, const std::filesystem::path& pdf,
    const Affine<VersoMm, VersoMm>& page_from_artwork, const std::string& name, int sheets,
    std::uint64_t seed, const std::filesystem::path& readings_file,
    std::vector<RejectedInput>& rejected, const Progress& progress) {
  rehearse::RehearsalSettings settings = request.settings;
  settings.seed = seed;
  settings.sheets = sheets;
  if (settings.passes.passes > 1 && settings.passes.front_share == 0) {
    settings.passes.front_share = 0.5;  // passes of both sides are there to be told apart
  }
  if (name == "proof") settings.passes.passes = 1;
  const auto printed = rehearse::simulate(settings, pdf, request.folder / "geometry.json",
                                          request.folder / name, progress);
  MeasureRequest measuring;
  measuring.scans = printed.scans;
  measuring.out = readings_file;
  measuring.replace = true;
  measuring.threads = settings.threads;
  const Readings readings = run_measure(measuring, progress);
  if (readings.sheets.empty()) return no_sheets(readings);
  rejected.insert(rejected.end(), readings.rejected.begin(), readings.rejected.end());
  std::map<int, const SheetReading*> by_sheet;
  for (const SheetReading& sheet : readings.sheets) by_sheet[sheet.sheet] = &sheet;
  std::vector<RehearsedSheet> rehearsed;
  for (const auto& truth : printed.sheets) {
    RehearsedSheet sheet{truth.sheet,
                         registration_from(truth.passes.landed_from_page() * page_from_artwork),
                         std::nullopt};
    if (by_sheet.contains(truth.sheet)) sheet.reading = *by_sheet[truth.sheet];
    rehearsed.push_back(std::move(sheet));
  }
  return rehearsed;
}

}  // namespace

Result<RehearseReport> run_rehearse(const RehearseRequest& request, const Progress& progress) {
  prepare(request);
  const auto in_folder = [&](const char* name) { return request.folder / name; };

  TargetRequest target;
  target.paper = request.paper;
  target.turn = request.turn;
  target.sheets = request.sheets;
  target.label = "rehearsal";
  target.run = "DRYR";  // the same files every time
  target.pdf = in_folder("target.pdf");
  target.geometry = in_folder("geometry.json");
  target.replace = true;
  target.passes = request.settings.passes.passes;
  run_target(target);

  RehearseReport report;
  report.mean_truth = request.settings.passes.mean;
  auto sheets =
      print_and_measure(request, target.pdf, {}, "print", request.sheets, request.settings.seed,
                        in_folder("readings.json"), report.rejected, progress);
  if (!sheets) return sheets.refusal();
  report.sheets = std::move(sheets).value();

  ProfileRequest profiling;
  profiling.readings = {in_folder("readings.json")};
  profiling.labels.printer = "simulated printer";
  profiling.out = in_folder("profile.json");
  profiling.replace = true;
  auto profile = run_profile(profiling);
  if (!profile) return profile.refusal();
  report.profile = std::move(profile).value();

  // Sheets of their own, fed once: the proof can be added to the profile.
  target.passes = 1;
  target.sheets = request.proof_sheets;
  target.run = "DRYP";
  target.pdf = in_folder("proof-target.pdf");
  target.geometry.reset();
  run_target(target);
  CorrectRequest correcting;
  correcting.input = target.pdf;
  correcting.profile = read_profile(profiling.out);
  correcting.out = in_folder("corrected.pdf");
  correcting.replace = true;
  if (const auto corrected = run_correct(correcting); !corrected) return corrected.refusal();

  // Other feeds than those that made the profile: the proof must not be of the same luck.
  const auto correction = correcting.profile.mean.page_from_wanted();
  auto proof = print_and_measure(request, correcting.out, correction, "proof", request.proof_sheets,
                                 request.settings.seed + 1000, in_folder("proof-readings.json"),
                                 report.rejected, progress);
  if (!proof) return proof.refusal();
  report.proof = std::move(proof).value();
  report.proof_mean_truth = registration_from(report.mean_truth.landed_from_page() * correction);
  return report;
}

}  // namespace versolay
