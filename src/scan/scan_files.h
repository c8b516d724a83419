// Which files are to be read.
#pragma once

#include <filesystem>
#include <vector>

namespace versolay::scan {

/// The files that are named, and in order of their names the PNG, JPEG, TIFF and PDF files directly
/// in folders that are named. Throws Error when one does not exist, or a folder has no such file.
std::vector<std::filesystem::path> scan_files(const std::vector<std::filesystem::path>& named);

}  // namespace versolay::scan
