// Files in whole, files out all or nothing.
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

/// Makes the folder, and those it lies in, where they are missing. Throws Error when it cannot.
void make_folder(const std::filesystem::path& path);

/// Where an output may go. Throws Error when it exists and `replace` is false, when its folder does
/// not exist, and when it is no file: a folder, a device, a pipe, or a link, which would be
/// replaced and not what it leads to. Call it before the work, so that nobody waits for a refusal.
void check_output(const std::filesystem::path& path, bool replace);

/// The same for all outputs of a command. Throws Error as well when two of them are one file,
/// however it is spelt. Empty names are none.
void check_outputs(const std::vector<std::filesystem::path>& outputs, bool replace);

/// Throws Error when `output` is one of the inputs, however it is spelt. Empty names are none.
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

/// Now, ISO 8601, UTC, whole seconds. SOURCE_DATE_EPOCH, when set, stands for now
/// (reproducible-builds.org specification).
std::string utc_now();

}  // namespace versolay
