// The user's profiles: finding and renaming them.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "versolay/printer_profile.h"

namespace versolay {

struct ShelvedProfile {
  std::filesystem::path file;
  PrinterProfile profile;
};

struct ProfileShelf {
  std::vector<ShelvedProfile> profiles;  // by file name
  Notices unreadable;                    // profiles by their schema that cannot be read
};

/// The profiles among these files, and in these folders (not below). A JSON file of another kind
/// in a folder is passed over; named itself, it is an Error.
ProfileShelf find_profiles(const std::vector<std::filesystem::path>& files_and_folders);

/// Other words for the set-up; what is not named stays.
struct NewLabels {
  std::optional<std::string> printer;
  std::optional<std::string> feed;
  std::optional<std::string> stock;
  std::optional<std::string> quality;
};
/// Rewrites the profile in its file, with a line in its history. Throws Error when nothing would
/// change, or a printer would have no name.
PrinterProfile rename_profile(const std::filesystem::path& file, const NewLabels& labels);

}  // namespace versolay
