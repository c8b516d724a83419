#include "app/rehearsed_sheets.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <random>

#include "app/measure.h"
#include "core/files.h"
#include "words/findings.h"

namespace versolay {

double RehearsedSheet::reading_error_mm(const Paper& paper) const {
  const Registration wrong = Registration::from(reading->registration.vec() - truth.vec());
  double most = 0.0;
  for (const double x : {-paper.width_mm / 2, paper.width_mm / 2}) {
    for (const double y : {-paper.height_mm / 2, paper.height_mm / 2}) {
      most = std::max(most, wrong.displacement_mm({x, y}).norm());
    }
  }
  return most;
}

double largest_reading_error_mm(const std::vector<RehearsedSheet>& sheets, const Paper& paper) {
  double most = 0.0;
  for (const RehearsedSheet& sheet : sheets) {
    if (sheet.reading) most = std::max(most, sheet.reading_error_mm(paper));
  }
  return most;
}

Result<std::vector<RehearsedSheet>> read_rehearsed(const ScansToRead& scans,
                                                   const std::vector<Registration>& truths,
                                                   std::vector<RejectedInput>& rejected,
                                                   const Progress& progress) {
  MeasureRequest measuring;
  measuring.scans = scans.printed.scans;
  measuring.out = scans.readings_file;
  measuring.fed_round = scans.fed_round;
  measuring.replace = true;
  measuring.threads = scans.threads;
  const Readings readings = run_measure(measuring, progress);
  if (readings.sheets.empty()) return no_sheets(readings);
  rejected.insert(rejected.end(), readings.rejected.begin(), readings.rejected.end());
  std::map<int, const SheetReading*> by_number;
  for (const SheetReading& sheet : readings.sheets) by_number[sheet.sheet] = &sheet;
  std::vector<RehearsedSheet> rehearsed;
  for (std::size_t i = 0; i < truths.size(); ++i) {
    const int number = scans.numbers.empty() ? static_cast<int>(i) + 1 : scans.numbers[i];
    RehearsedSheet sheet{number, truths[i], std::nullopt};
    if (by_number.contains(number)) sheet.reading = *by_number[number];
    rehearsed.push_back(std::move(sheet));
  }
  return rehearsed;
}

void make_printer_like(const PrinterProfile& profile, const std::string& name,
                       rehearse::PassSettings& passes) {
  if (profile.spread_dof < 1) {
    throw Error(name, findings::printer_like_has_no_spread());
  }
  passes.mean = profile.mean;
  const RegistrationVector variance =
      profile.spread_covariance.diagonal() - profile.measurement_covariance.diagonal();
  passes.feed_sd = Registration::from(variance.cwiseMax(0.0).cwiseSqrt());
}

int sheets_to_rehearse(std::optional<int> wanted, int there, const std::filesystem::path& pdf) {
  const int sheets = wanted.value_or(there);
  if (sheets < 1 || sheets > there) {
    throw BadField("sheets", findings::not_so_many_sheets(there, pdf.filename().string()));
  }
  return sheets;
}

void require_room_for_rehearsal(const std::filesystem::path& folder, bool replace) {
  if (replace || !std::filesystem::exists(folder)) return;
  if (std::filesystem::is_directory(folder) && std::filesystem::is_empty(folder)) return;
  throw Error(folder.string(), findings::folder_not_empty());
}

void make_rehearsal_folder(const std::filesystem::path& folder) {
  make_folder(folder);
  for (const char* printed : {"print", "proof"}) {
    if (std::filesystem::exists(folder / printed / "truth.json")) {
      std::filesystem::remove_all(folder / printed / "scans");
    }
  }
}

std::uint64_t fresh_seed() {
  return std::random_device{}() % 1'000'000;  // short enough to be typed again
}

}  // namespace versolay
