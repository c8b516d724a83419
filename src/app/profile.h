// The command `profile`: readings in, printer profile out.
#pragma once

#include <filesystem>
#include <vector>

#include "profile/estimate.h"

namespace versolay {

struct ProfileRequest {
  std::vector<std::filesystem::path> readings;  // one file per session
  ProfileLabels labels;
  EstimateOptions options;
  std::filesystem::path out;
  bool replace = false;
};

/// The profile, with the studies of all of its sheets.
/// @fails  as estimate_profile.
Result<PrinterProfile> learn_printer(std::vector<ReadingSession> sessions,
                                     const ProfileLabels& labels, const EstimateOptions& options);

/// Estimates the profile and writes it.
/// @return a refusal when the readings do not make one profile; nothing is written then.
/// Throws Error when a file is missing or malformed, or the output cannot be written.
Result<PrinterProfile> run_profile(const ProfileRequest& request);

}  // namespace versolay
