// A printer profile: what is accepted can be written and read again.
#include "core/json.h"
#include "profile/profile_json.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  try {
    const auto profile = versolay::profile_from(versolay::parse_json(text, "input"), "input");
    const std::string again = versolay::to_text(versolay::json_of(profile));
    versolay::profile_from(versolay::parse_json(again, "again"), "again");
  } catch (const versolay::Error& e) {
    if (e.where().rfind("again", 0) == 0) std::abort();  // our own file is refused
  }
  return 0;
}
