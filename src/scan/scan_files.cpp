#include "scan/scan_files.h"

#include <algorithm>

#include "core/file_names.h"
#include "core/findings.h"
#include "scan/findings.h"
#include "versolay/result.h"

namespace versolay::scan {
namespace {

bool is_scan_file(const std::filesystem::path& path) {
  const std::string ending = lower_extension(path);
  for (const char* known : {".png", ".jpg", ".jpeg", ".tif", ".tiff", ".pdf"}) {
    if (ending == known) return true;
  }
  return false;
}

}  // namespace

std::vector<std::filesystem::path> scan_files(const std::vector<std::filesystem::path>& named) {
  std::vector<std::filesystem::path> files;
  for (const auto& path : named) {
    if (!std::filesystem::exists(path)) throw Error(path.string(), findings::does_not_exist());
    if (!std::filesystem::is_directory(path)) {
      files.push_back(path);
      continue;
    }
    std::vector<std::filesystem::path> inside;
    for (const auto& entry : std::filesystem::directory_iterator(path)) {
      if (entry.is_regular_file() && is_scan_file(entry.path())) inside.push_back(entry.path());
    }
    if (inside.empty()) {
      throw Error(path.string(), findings::no_scans_in_folder());
    }
    std::sort(inside.begin(), inside.end());
    files.insert(files.end(), inside.begin(), inside.end());
  }
  return files;
}

}  // namespace versolay::scan
