// Reads whole files; writes files atomically.
#pragma once

#include <cstdio>
#include <filesystem>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace versolay {

/// Throws Error for a folder, and for a pipe or a device: opening one may wait for ever. A name
/// that leads nowhere passes; opening it says why.
void require_file(const std::filesystem::path& path);

/// The whole content. Throws Error as require_file, and when the file cannot be read.
std::string read_file(const std::filesystem::path& path);

/// Creates the folder and its parents where they are missing. Throws Error on failure.
void make_folder(const std::filesystem::path& path);

/// Checks where an output goes. Throws Error when it exists and `replace` is false, when its folder
/// does not exist, and when it is not a regular file: a folder, a device, a pipe, or a link, which
/// would itself be replaced instead of its target. Call it before the work, so that nobody waits
/// for a refusal.
void check_output(const std::filesystem::path& path, bool replace);

/// The same for all outputs of a command. Also throws Error when two of them are the same file,
/// however it is spelled. Empty names are ignored.
void check_outputs(const std::vector<std::filesystem::path>& outputs, bool replace);

/// Throws Error when `output` is one of the inputs, however it is spelled. Empty names are ignored.
void require_not_an_input(const std::filesystem::path& output,
                          const std::vector<std::filesystem::path>& inputs);

/// Writes to a temporary file in the same folder, flushes it to the disk and renames it: readers
/// see the old file or the new one, never a part. Throws Error as check_output, and when the
/// write fails (the old file is then untouched and no temporary file remains).
void write_file_atomically(const std::filesystem::path& path, std::string_view content,
                           bool replace);

/// The same for content that is too large to be held: `write` puts it into the stream piece by
/// piece, may read back what it wrote, and may throw.
void write_file_atomically(const std::filesystem::path& path, bool replace,
                           const std::function<void(std::FILE*)>& write);

/// The current time, ISO 8601, UTC, whole seconds. SOURCE_DATE_EPOCH, when set, replaces it
/// (reproducible-builds.org specification).
std::string utc_now();

}  // namespace versolay
