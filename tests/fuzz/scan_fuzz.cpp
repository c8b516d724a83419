// Pictures of scans: PNG, JPEG and TIFF (a PDF would start helper programs for every input).
#include <string_view>

#include "memory_file.h"
#include "scan/scan.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (std::string_view(reinterpret_cast<const char*>(data), size).substr(0, 1024).find("%PDF") !=
      std::string_view::npos) {
    return 0;
  }
  const versolay::testing_support::MemoryFile file(data, size);
  try {
    const versolay::ScanLimits limits{4'000'000, 20'000};
    versolay::for_each_page(file.path(), limits, [](versolay::Scan&& scan) {
      const auto& grey = scan.grey;
      if (grey.pixels.size() != static_cast<std::size_t>(grey.width) * grey.height) std::abort();
    });
  } catch (const versolay::Error&) {
  }
  return 0;
}
