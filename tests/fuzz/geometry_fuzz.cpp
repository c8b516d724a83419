// The geometry of a target, as `readings` takes it.
#include "app/readings.h"
#include "memory_file.h"
#include "versolay/result.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const versolay::testing_support::MemoryFile file(data, size);
  try {
    const auto target = versolay::target_of_geometry(file.path());
    if (!target.paper || !target.turn) std::abort();
  } catch (const versolay::Error&) {
  }
  return 0;
}
