#include "core/font_file.h"

#include <cstdlib>
#include <string>
#include <vector>

#include "core/findings.h"
#include "versolay/result.h"

namespace versolay {
namespace {

std::vector<std::filesystem::path> font_folders() {
  if (const char* named = std::getenv("VERSOLAY_FONT_DIR")) return {named};
  return {"/usr/share/fonts/truetype/dejavu", "/usr/share/fonts/dejavu-sans-fonts",
          "/usr/share/fonts/dejavu", "/usr/share/fonts/TTF", "/usr/local/share/fonts/dejavu"};
}

}  // namespace

std::filesystem::path font_file(bool bold) {
  const std::string name = bold ? "DejaVuSans-Bold.ttf" : "DejaVuSans.ttf";
  std::string places;
  for (const auto& folder : font_folders()) {
    std::error_code ignored;
    if (std::filesystem::is_regular_file(folder / name, ignored)) return folder / name;
    places += (places.empty() ? "" : ", ") + folder.string();
  }
  throw Error(name, findings::font_missing(places));
}

}  // namespace versolay
