// The state of a job, and its next step.
#pragma once

#include <filesystem>
#include <string>

#include "cli/folder_job.h"
#include "versolay/printer_profile.h"

namespace versolay {

/// The next command, from what the job of the folder remembers and what is there already: no
/// target yet, scans to read, readings without a profile, a profile to use.
std::string next_step(const std::filesystem::path& folder, const FolderJob& job);

/// What `versolay` prints without a command: the whole job in a few lines, and the state of the job
/// in this folder, if it has one.
std::string first_words(const std::filesystem::path& folder);

}  // namespace versolay
