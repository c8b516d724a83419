#include "app/measure.h"
#include "app/profile.h"
#include "core/files.h"
#include "core/json.h"
#include "profile/estimate.h"
#include "profile/profile_json.h"
#include "profile/recommendation.h"
#include "registration/readings_json.h"
#include "versolay/versolay.h"
#include "words/say.h"

namespace versolay {

Result<Readings> readings_of_scans(const std::vector<std::filesystem::path>& scans, int threads) {
  MeasureRequest request;
  request.scans = scans;
  request.threads = threads;
  Readings readings = read_scans(request, {});
  if (readings.sheets.empty()) return no_sheets(readings);
  return readings;
}

Readings load_readings(const std::filesystem::path& file) { return read_readings(file); }

void save_readings(const Readings& readings, const std::filesystem::path& file) {
  write_file_atomically(file, to_text(json_of(readings)), true);
}

Result<PrinterProfile> profile_of_readings(const std::vector<Readings>& sessions,
                                           const ProfileLabels& labels) {
  std::vector<ReadingSession> named;
  for (std::size_t i = 0; i < sessions.size(); ++i) {
    named.push_back({"session " + std::to_string(i + 1), sessions[i]});
  }
  return learn_printer(std::move(named), labels, {});
}

PrinterProfile load_profile(const std::filesystem::path& file) { return read_profile(file); }

void save_profile(const PrinterProfile& profile, const std::filesystem::path& file) {
  write_file_atomically(file, to_text(json_of(profile)), true);
}

Result<Advice> advice_of_profile(const PrinterProfile& profile, const AdviceRequest& request) {
  return advise(profile, request);
}

Affine<VersoMm, VersoMm> corrected_back_page(const PrinterProfile& profile) {
  return profile.mean.page_from_wanted();
}

std::string sentence(const Finding& finding) { return words::say(finding); }
std::string sentence(const Error& error) { return words::say(error); }

}  // namespace versolay
