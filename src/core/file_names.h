// What the name of a file says.
#pragma once

#include <filesystem>
#include <string>

namespace versolay {

/// ".pdf", also of "SCAN.PDF"; empty without an extension.
std::string lower_extension(const std::filesystem::path& path);

}  // namespace versolay
