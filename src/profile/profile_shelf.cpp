#include "profile/profile_shelf.h"

#include <algorithm>

#include "core/files.h"
#include "core/software.h"
#include "profile/findings.h"
#include "profile/profile_json.h"

namespace versolay {
namespace {

/// Whether a JSON file says of itself that it is a profile; unreadable ones do not.
bool claims_to_be_a_profile(const std::filesystem::path& file) {
  try {
    const Json document = read_json(file);
    const auto schema = document.find("schema");
    return schema != document.end() && schema->is_string() &&
           schema->get<std::string>().rfind("versolay.profile/", 0) == 0;
  } catch (const Error&) {
    return false;
  } catch (const Json::exception&) {  // an array, a number: no document of ours
    return false;
  }
}

void add_folder(const std::filesystem::path& folder, ProfileShelf& shelf) {
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.path().extension() != ".json" || !entry.is_regular_file()) continue;
    if (!claims_to_be_a_profile(entry.path())) continue;
    const auto file = folder == "." ? entry.path().filename() : entry.path();
    try {
      shelf.profiles.push_back({file, read_profile(file)});
    } catch (const Error& e) {
      shelf.unreadable.push_back(findings::unreadable_profile(e.where(), e.at(), e.problems()));
    }
  }
}

/// Printer and set-up, as they were named.
std::string name_of(const PrinterProfile& p) {
  std::string set_up;
  for (const std::string& part : {p.feed, p.stock, p.quality}) {
    if (!part.empty()) set_up += (set_up.empty() ? "" : ", ") + part;
  }
  return set_up.empty() ? p.printer : p.printer + " (" + set_up + ")";
}

bool set_label(std::string& label, const std::optional<std::string>& wanted) {
  if (!wanted || *wanted == label) return false;
  label = *wanted;
  return true;
}

}  // namespace

ProfileShelf find_profiles(const std::vector<std::filesystem::path>& files_and_folders) {
  ProfileShelf shelf;
  for (const auto& path : files_and_folders) {
    if (std::filesystem::is_directory(path)) {
      add_folder(path, shelf);
    } else {
      shelf.profiles.push_back({path, read_profile(path)});
    }
  }
  std::sort(shelf.profiles.begin(), shelf.profiles.end(),
            [](const ShelvedProfile& a, const ShelvedProfile& b) { return a.file < b.file; });
  return shelf;
}

PrinterProfile rename_profile(const std::filesystem::path& file, const NewLabels& labels) {
  PrinterProfile profile = read_profile(file);
  if (labels.printer && labels.printer->empty())
    throw BadField("printer", findings::name_is_empty());
  const std::string before = name_of(profile);
  bool changed = set_label(profile.printer, labels.printer);
  changed |= set_label(profile.feed, labels.feed);
  changed |= set_label(profile.stock, labels.stock);
  changed |= set_label(profile.quality, labels.quality);
  if (!changed) throw Error(file.string(), findings::named_so_already());
  profile.history.push_back({utc_now(), findings::renamed(before)});
  profile.software = kSoftware;
  write_file_atomically(file, to_text(json_of(profile)), true);
  return profile;
}

}  // namespace versolay
