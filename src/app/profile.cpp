#include "app/profile.h"

#include "core/files.h"
#include "profile/profile_json.h"
#include "registration/readings_json.h"
#include "registration/sheet_studies.h"
#include "words/findings.h"

namespace versolay {
namespace {

std::vector<SheetReading> all_sheets(const std::vector<ReadingSession>& sessions) {
  std::vector<SheetReading> sheets;
  for (const ReadingSession& session : sessions) {
    sheets.insert(sheets.end(), session.readings.sheets.begin(), session.readings.sheets.end());
  }
  return sheets;
}

}  // namespace

Result<PrinterProfile> learn_printer(std::vector<ReadingSession> sessions,
                                     const ProfileLabels& labels, const EstimateOptions& options) {
  const std::vector<SheetReading> sheets = all_sheets(sessions);
  Result<PrinterProfile> profile = estimate_profile(std::move(sessions), labels, options);
  if (profile) {
    profile.value().studies = studies_of(sheets, profile.value().turn, profile.value().paper);
  }
  return profile;
}

Result<PrinterProfile> run_profile(const ProfileRequest& request) {
  if (request.labels.printer.empty()) {
    throw BadField("printer", findings::printer_not_named());
  }
  check_output(request.out, request.replace);
  std::vector<ReadingSession> sessions;
  for (const std::filesystem::path& file : request.readings) {
    sessions.push_back({file.filename().string(), read_readings(file)});
  }
  const Result<PrinterProfile> profile =
      learn_printer(std::move(sessions), request.labels, request.options);
  if (profile) {
    write_file_atomically(request.out, to_text(json_of(profile.value())), request.replace);
  }
  return profile;
}

}  // namespace versolay
