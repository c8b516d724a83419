// The command `check`: new readings against a profile, and the profile brought up to date.
#pragma once

#include <filesystem>
#include <optional>

#include "profile/monitor.h"

namespace versolay {

struct CheckRequest {
  std::filesystem::path profile;
  std::filesystem::path readings;
  /// Sheets that do not say so themselves (targets) were printed with the profile's correction, or
  /// were not; nullopt: not said. Production sheets name their correction.
  std::optional<bool> corrected;
  std::filesystem::path out;  // the updated profile; empty: none
  bool replace = false;
};

struct CheckReport {
  PrinterProfile profile;
  Check check;
  std::optional<LeftAfterCorrection> left;  // nullopt: no production sheets
  bool known = false;                       // the profile holds some of the sheets already
  std::optional<PrinterProfile> updated;
  Notices warnings;
};

/// Throws Error when a file is missing or malformed, or the output cannot be written.
/// @return a refusal when the readings do not belong to the profile, when nothing can be said, or
///         when it is not said whether they are corrected and they look as if they were.
Result<CheckReport> run_check(const CheckRequest& job);

}  // namespace versolay
