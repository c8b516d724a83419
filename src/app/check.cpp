#include "app/check.h"

#include "core/files.h"
#include "profile/check_remarks.h"
#include "profile/findings.h"
#include "profile/profile_json.h"
#include "profile/profile_match.h"
#include "registration/readings_json.h"

namespace versolay {
Result<CheckReport> run_check(const CheckRequest& job) {
  if (!job.out.empty()) check_output(job.out, job.replace);
  CheckReport report;
  report.profile = read_profile(job.profile);
  Readings readings = read_readings(job.readings);
  if (const auto refusal = profile_mismatch(report.profile, readings.paper, readings.turn)) {
    return *refusal;
  }
  if (const auto warning = other_print_size(report.profile, readings)) {
    report.warnings.push_back(*warning);
  }
  if (!job.corrected && looks_corrected(report.profile, readings)) {
    return findings::looks_corrected();
  }
  const bool corrected = job.corrected.value_or(false);
  if (const auto known = known_sheets(report.profile, readings)) {
    report.known = true;
    report.warnings.push_back(*known);
  }
  report.left = left_after_correction(readings);
  auto check = check_readings(report.profile, readings, corrected);
  if (!check) return check.refusal();
  report.check = std::move(check).value();
  if (job.out.empty()) return report;

  readings = uncorrected(report.profile, std::move(readings), corrected);
  auto updated = updated_profile(
      report.profile, {job.readings.filename().string(), std::move(readings)}, report.check);
  if (!updated) return updated.refusal();
  report.updated = std::move(updated).value();
  write_file_atomically(job.out, to_text(json_of(*report.updated)), job.replace);
  return report;
}

}  // namespace versolay
