// The user's profiles: list, summary and renaming.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "versolay/profile.h"
#include "words/display_unit.h"

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

/// A line a profile: file, printer and how it was set up, sheets, mean and spread.
std::string shelf_words(const ProfileShelf& shelf, const DisplayUnit& unit = {});

/// What is needed beside the printer, in a dozen short lines: to print out and pin up.
std::string profile_note(const PrinterProfile& profile, const DisplayUnit& unit = {});

/// The feeds of a profile as CSV (RFC 4180): session, sheet, run, the six components, left_out.
std::string profile_csv(const PrinterProfile& profile);

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
