// A target design: accepted or refused, and its geometry can be made.
#include "memory_file.h"
#include "target/design.h"
#include "versolay/result.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const versolay::testing_support::MemoryFile file(data, size);
  try {
    versolay::read_design(file.path());
  } catch (const versolay::Error&) {
  }
  return 0;
}
