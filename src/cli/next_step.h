// Where a job stands, and the one thing to do now.
#pragma once

#include <filesystem>
#include <string>

#include "app/job.h"
#include "versolay/profile.h"

namespace versolay {

/// The next command, from what the job of the folder remembers and what is there already: no
/// target yet, scans to read, readings without a profile, a profile to use.
std::string next_step(const std::filesystem::path& folder, const Job& job);

/// What `versolay` says when it is called without a command: the whole job in a few lines, and
/// where the job of this folder stands, if it has one.
std::string first_words(const std::filesystem::path& folder);

}  // namespace versolay
