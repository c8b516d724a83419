// Pictures of cards: what would go into a PDF as it is, and what would be warped.
#include "artwork/coded_image.h"
#include "artwork/raster.h"
#include "memory_file.h"
#include "versolay/result.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const versolay::testing_support::MemoryFile file(data, size);
  try {
    const auto coded = versolay::read_coded_image(file.path());
    if (coded.width_px <= 0 || coded.height_px <= 0 || coded.data.empty()) std::abort();
  } catch (const versolay::Error&) {
  }
  try {
    versolay::read_raster(file.path());
  } catch (const versolay::Error&) {
  }
  return 0;
}
