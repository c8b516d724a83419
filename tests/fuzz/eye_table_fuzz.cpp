// A table of readings by eye: what is understood gives readings that can be written and read again.
#include "core/json.h"
#include "registration/eye_registration.h"
#include "registration/eye_table.h"
#include "registration/readings_json.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  try {
    const auto table = versolay::read_eye_table(text, "input", {});
    const auto readings = versolay::register_by_eye(table, "input");
    const std::string again = versolay::to_text(versolay::json_of(readings));
    versolay::readings_from(versolay::parse_json(again, "again"), "again");
  } catch (const versolay::Error& e) {
    if (e.where().rfind("again", 0) == 0) std::abort();  // our own file is refused
  }
  return 0;
}
