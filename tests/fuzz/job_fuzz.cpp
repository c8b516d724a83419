// What a folder remembers: what is accepted is written as it was read.
#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "cli/folder_job.h"
#include "versolay/result.h"

namespace {

std::filesystem::path scratch_folder() {
  const char* parent = std::filesystem::exists("/dev/shm") ? "/dev/shm" : "/tmp";
  std::string pattern = std::string(parent) + "/versolay-fuzz-XXXXXX";
  if (mkdtemp(pattern.data()) == nullptr) std::abort();
  return pattern;
}

struct Scratch {
  std::filesystem::path path = scratch_folder();
  ~Scratch() {
    std::error_code ignored;
    std::filesystem::remove_all(path, ignored);
  }
};

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const Scratch folder;
  {
    std::ofstream file(folder.path / versolay::kJobFile, std::ios::binary | std::ios::trunc);
    file.write(reinterpret_cast<const char*>(data), static_cast<std::streamsize>(size));
  }
  try {
    const auto job = versolay::read_job(folder.path);
    if (!job) std::abort();
    versolay::write_job(folder.path, *job);
    if (versolay::read_job(folder.path)->remembered != job->remembered) std::abort();
  } catch (const versolay::Error&) {
  }
  return 0;
}
