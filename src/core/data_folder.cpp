#include "core/data_folder.h"

#include <dlfcn.h>

#include <cstdlib>
#include <vector>

#include "core/findings.h"
#include "versolay/result.h"

namespace versolay {
namespace {

const int kHere = 0;  // an address in this library

using Folders = std::vector<std::filesystem::path>;

/// VERSOLAY_DATA / `in_data`, then `beside` the folder of the program, then `built`.
Folders candidates(const char* in_data, const char* beside, const char* built) {
  Folders folders;
  if (const char* named = std::getenv("VERSOLAY_DATA")) {
    folders.push_back(std::filesystem::path(named) / in_data);
  }
  std::error_code no_proc;
  const auto program = std::filesystem::read_symlink("/proc/self/exe", no_proc);
  if (!no_proc) folders.push_back(program.parent_path().parent_path() / beside);
  // The shared library, in a program of somebody else's; its folder may be lib or lib/<machine>.
  Dl_info own{};
  if (dladdr(&kHere, &own) != 0 && own.dli_fname != nullptr) {
    const auto library = std::filesystem::weakly_canonical(own.dli_fname, no_proc).parent_path();
    folders.push_back(library.parent_path() / beside);
    folders.push_back(library.parent_path().parent_path() / beside);
  }
  folders.emplace_back(built);
  return folders;
}

}  // namespace

std::filesystem::path calib_targets_folder() {
  for (const auto& folder : candidates("calib_targets", "share/versolay/calib_targets",
                                       VERSOLAY_SOURCE_FOLDER "/calib_targets")) {
    if (std::filesystem::is_regular_file(folder / "a4.json")) return folder;
  }
  throw Error("calib_targets", findings::designs_missing());
}

std::optional<std::filesystem::path> catalogue_folder() {
  for (const auto& folder : candidates("locale", "share/locale", VERSOLAY_CATALOGUES)) {
    std::error_code unreachable;
    if (std::filesystem::is_directory(folder, unreachable)) return folder;
  }
  return std::nullopt;
}

}  // namespace versolay
