#include <emscripten.h>

#include <cstdint>
#include <cstdlib>
#include <memory>

#include "measure/code_reader.h"

// Asks the function that src/page/engine.js gave to the program: (grey pixels, width, height,
// "QRCode" or "DataMatrix") -> its text in ASCII or null. Returns a string to be freed, or 0.
// clang-format off
EM_JS(char*, versolay_read_code,
      (const std::uint8_t* pixels, int width, int height, int is_data_matrix), {
  const grey = HEAPU8.subarray(pixels, pixels + width * height);
  const text = Module["readCode"](grey, width, height, is_data_matrix ? "DataMatrix" : "QRCode");
  return text ? allocateUTF8(text) : 0;
});
// clang-format on

namespace versolay {

std::optional<std::string> text_of_code(const GreyImage& picture, CodeKind kind) {
  const std::unique_ptr<char, decltype(&std::free)> text(
      versolay_read_code(picture.pixels.data(), picture.width, picture.height,
                         kind == CodeKind::data_matrix),
      &std::free);
  if (!text) return std::nullopt;
  return std::string(text.get());
}

}  // namespace versolay
