// Where the data files of the program are: in the build tree, or where it was installed.
#pragma once

#include <filesystem>
#include <optional>

namespace versolay {

/// The folder calib_targets. Looked for in the folder that VERSOLAY_DATA names, in
/// ../share/versolay beside the program or the shared library, then in the source tree that it was
/// built from. Throws Error when it is nowhere.
std::filesystem::path calib_targets_folder();

/// The folder with a folder of catalogues for each language. Looked for as `locale` in the folder
/// that VERSOLAY_DATA names, as ../share/locale beside the program, then in the build tree.
std::optional<std::filesystem::path> catalogue_folder();

}  // namespace versolay
