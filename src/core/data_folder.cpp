#include "core/data_folder.h"

#include <cstdlib>
#include <vector>

#include "versolay/result.h"

namespace versolay {

std::filesystem::path calib_targets_folder() {
  std::vector<std::filesystem::path> candidates;
  if (const char* named = std::getenv("VERSOLAY_DATA")) candidates.emplace_back(named);
  std::error_code no_proc;
  const auto program = std::filesystem::read_symlink("/proc/self/exe", no_proc);
  if (!no_proc) candidates.push_back(program.parent_path().parent_path() / "share/versolay");
  candidates.emplace_back(VERSOLAY_SOURCE_FOLDER);
  for (const auto& candidate : candidates) {
    if (std::filesystem::is_regular_file(candidate / "calib_targets/a4.json")) {
      return candidate / "calib_targets";
    }
  }
  throw Error("calib_targets",
              "the target designs were not found. Install versolay again, or set VERSOLAY_DATA to "
              "the folder that holds calib_targets");
}

}  // namespace versolay
