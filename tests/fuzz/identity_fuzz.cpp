// The text of a code on the page, as a scan may garble it.
#include "target/identity.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  const auto identity = versolay::identity_from_code_text(text);
  if (identity && versolay::identity_from_code_text(versolay::code_text(*identity)) != identity) {
    std::abort();  // it would be printed as another page
  }
  return 0;
}
