// Bytes that a reader can open by a path: a file that exists in memory only.
#pragma once

#include <sys/mman.h>
#include <unistd.h>

#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <string>

namespace versolay::testing_support {

class MemoryFile {
 public:
  MemoryFile(const std::uint8_t* data, std::size_t size) : descriptor_(memfd_create("input", 0)) {
    if (descriptor_ < 0) std::abort();
    for (std::size_t written = 0; written < size;) {
      const ssize_t n = write(descriptor_, data + written, size - written);
      if (n <= 0) std::abort();
      written += static_cast<std::size_t>(n);
    }
  }
  ~MemoryFile() { close(descriptor_); }
  MemoryFile(const MemoryFile&) = delete;
  MemoryFile& operator=(const MemoryFile&) = delete;

  std::filesystem::path path() const { return "/proc/self/fd/" + std::to_string(descriptor_); }

 private:
  int descriptor_;
};

}  // namespace versolay::testing_support
