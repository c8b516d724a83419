// Other programs, run without a shell.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace versolay::rehearse {

/// A folder for passing files between programs; it goes away with the object.
class TemporaryFolder {
 public:
  TemporaryFolder();
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  ~TemporaryFolder();
  const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

/// Whether a program of this name is on the PATH.
bool program_exists(const std::string& name);

struct ProgramResult {
  int exit_code = 0;
  std::string output;  // stdout and stderr, as they came
};

/// Runs words[0] with the other words as arguments and waits for it. `scratch` holds its output.
/// Throws Error when it cannot be started or dies of a signal.
ProgramResult run_program(const std::vector<std::string>& words,
                          const std::filesystem::path& scratch);

}  // namespace versolay::rehearse
