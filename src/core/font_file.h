// Locates the fonts used for all text.
#pragma once

#include <filesystem>

namespace versolay {

/// DejaVu Sans or DejaVu Sans Bold. Looked for in the folder named by the environment variable
/// VERSOLAY_FONT_DIR when it is set, else where Linux distributions install it.
/// Throws Error that says which package to install.
std::filesystem::path font_file(bool bold);

}  // namespace versolay
