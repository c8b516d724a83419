// The command `check`: new readings against a profile, and the profile brought up to date.
#pragma once

#include <filesystem>
#include <optional>

#include "profile/monitor.h"

namespace versolay {

struct CheckRequest {
  std::filesystem::path profile;
  std::filesystem::path readings;
  /// Sheets that do not say so themselves were printed with the profile's correction (a target that
  /// went through `correct`); production sheets name their correction.
  bool corrected = false;
  std::filesystem::path out;  // the updated profile; empty: none
  bool replace = false;
};

struct CheckReport {
  PrinterProfile profile;
  Check check;
  std::optional<LeftAfterCorrection> left;  // nullopt: no production sheets
  std::optional<PrinterProfile> updated;
  Notices warnings;
};

/// Throws Error when a file is missing or malformed, or the output cannot be written.
/// @return a refusal when the readings do not belong to the profile, or nothing can be said.
Result<CheckReport> run_check(const CheckRequest& job);

}  // namespace versolay
