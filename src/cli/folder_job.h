// What a folder remembers of its job, so that options need not be repeated: versolay-job.json.
//
//   { "schema": "versolay.job/1", "remembered": { "paper": "a4", "turn": "long-edge", ... } }
#pragma once

#include <array>
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <string_view>

namespace versolay {

inline constexpr char kJobFile[] = "versolay-job.json";

/// What can be remembered: each is an option of one command or several ("--paper"), or an argument
/// ("readings", "profile"), and keeps the words of the user.
inline constexpr std::array<std::string_view, 15> kJobKeys = {
    "paper", "turn", "printer", "feed",   "stock",    "quality",    "readings", "profile",
    "card",  "grid", "gutter",  "border", "coverage", "confidence", "units"};
bool is_job_key(std::string_view key);

struct FolderJob {
  std::map<std::string, std::string> remembered;  // key -> value, as typed

  std::optional<std::string> find(const std::string& key) const;
};

/// The job of a folder; nullopt when it has none. Throws Error if the file is not a job.
std::optional<FolderJob> read_job(const std::filesystem::path& folder);

/// Throws Error as write_file_atomically does. An existing file is replaced: it is the program's
/// own notebook.
void write_job(const std::filesystem::path& folder, const FolderJob& job);

}  // namespace versolay
