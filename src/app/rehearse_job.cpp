#include "app/rehearse_job.h"

#include <algorithm>

#include "app/own_pdf.h"
#include "core/files.h"
#include "imposition/card_backs.h"
#include "pdf/cards_note.h"
#include "profile/profile_json.h"
#include "profile/profile_match.h"
#include "words/translation.h"

namespace versolay {
namespace {

constexpr double kOfReading = 0.1;  // of the whole: drawing and reading the PDF

std::optional<std::filesystem::path> profile_of_printer(const RehearseJobRequest& r) {
  return r.printer_like ? r.printer_like : r.profile;
}

/// Of the sheet with this place in the PDF; the last one may have empty cells.
RehearsedCards cards_of_sheet(const CardsNote& note, int place,
                              const Affine<VersoMm, VersoMm>& landed_from_artwork) {
  const int cells = static_cast<int>(note.backs.size());
  RehearsedCards count;
  count.cards = std::clamp(note.cards - place * cells, 0, cells);
  for (int i = 0; i < count.cards; ++i) {
    const CardBack& back = note.backs[static_cast<std::size_t>(i)];
    count.clean += is_clean(back, landed_from_artwork) ? 1 : 0;
    count.worst_off_mm = std::max(count.worst_off_mm, off_mm(back, landed_from_artwork));
  }
  return count;
}

Registration mean_of(const std::vector<RehearsedSheet>& sheets) {
  RegistrationVector sum = RegistrationVector::Zero();
  for (const RehearsedSheet& sheet : sheets) sum += sheet.truth.vec();
  return Registration::from(sum / static_cast<double>(sheets.size()));
}

void check_against_profile(const RehearseJobRequest& r, RehearseJobReport& report) {
  CheckRequest checking;
  checking.profile = *r.profile;
  checking.readings = r.folder / "readings.json";
  Result<CheckReport> checked = run_check(checking);
  if (checked) {
    report.check = std::move(checked).value();
  } else {
    report.check_refused = checked.refusal();
  }
}

std::optional<Refusal> mismatch(const std::optional<std::filesystem::path>& profile,
                                const PageIdentity& identity) {
  if (!profile) return std::nullopt;
  return profile_mismatch(read_profile(*profile), identity.paper, identity.turn);
}

}  // namespace

Result<RehearseJobReport> run_rehearse_job(const RehearseJobRequest& r, const Progress& progress) {
  require_room_for_rehearsal(r.folder, r.replace);
  RehearseJobReport report;
  report.seed = r.seed ? *r.seed : fresh_seed();
  rehearse::RehearsalSettings settings = r.settings;
  settings.seed = report.seed;
  if (r.sheets) settings.sheets = *r.sheets;
  settings.validate();
  if (const auto profile = profile_of_printer(r)) {
    make_printer_like(read_profile(*profile), profile->string(), settings.passes);
  }
  report.printer_mean = settings.passes.mean;

  const auto read = read_own_pdf(r.job, OwnKind::job, part_of(progress, 0.0, kOfReading));
  if (!read) return read.refusal();
  const OwnPdf& pdf = read.value();
  for (const auto& profile : {r.profile, r.printer_like}) {
    if (const auto no = mismatch(profile, pdf.identity)) return *no;
  }
  const auto note = noted_cards(read_file(r.job), r.job.filename().string());
  report.paper = pdf.identity.paper;
  report.run = pdf.identity.run;
  settings.sheets = sheets_to_rehearse(r.sheets, static_cast<int>(pdf.sheets.size()), r.job);

  make_rehearsal_folder(r.folder);
  const Progress rest = part_of(progress, kOfReading, 1.0);
  WorkShares shares(rest, kPrintWork + kReadWork);
  rehearse::PrintJob job{r.job, pdf.identity.paper, pdf.identity.turn, {}, false};
  job.pages = 2 * static_cast<int>(pdf.sheets.size());
  const auto printed =
      rehearse::print_and_scan(settings, job, r.folder / "print", shares.next(kPrintWork));
  std::vector<Affine<VersoMm, VersoMm>> landed;
  std::vector<Registration> truths;
  std::vector<int> numbers;
  for (std::size_t i = 0; i < printed.sheets.size(); ++i) {
    const OwnSheet& sheet = pdf.sheets[i];
    landed.push_back(printed.sheets[i].passes.landed_from_page() *
                     sheet.correction.value_or(Registration{}).landed_from_page());
    truths.push_back(registration_from(landed.back()));
    numbers.push_back(sheet.number);
  }
  auto sheets = read_rehearsed({printed, numbers, {}, r.folder / "readings.json", settings.threads},
                               truths, report.rejected, shares.next(kReadWork));
  if (!sheets) return sheets.refusal();
  report.landed_mean = mean_of(sheets.value());
  for (std::size_t i = 0; i < sheets.value().size(); ++i) {
    RehearsedJobSheet sheet{sheets.value()[i], std::nullopt};
    if (note) sheet.cards = cards_of_sheet(*note, static_cast<int>(i), landed[i]);
    report.sheets.push_back(std::move(sheet));
  }
  if (r.profile) check_against_profile(r, report);
  return report;
}

}  // namespace versolay
