#include "pdf/page_art.h"

#include "core/file_names.h"
#include "core/files.h"
#include "core/numbers.h"
#include "pdf/page_form_source.h"

namespace versolay {

std::vector<PageArt> read_page_art(const std::filesystem::path& path) {
  PageFormSource source(path.string());
  std::vector<PageArt> list;
  for (int page = 1; page <= source.pages(); ++page) {
    const auto part = source.part(page);
    list.push_back({path.string(), page, part.shown.width_mm, part.shown.height_mm, part.bleed_mm});
  }
  return list;
}

bool has_pdf_name(const std::filesystem::path& path) { return lower_extension(path) == ".pdf"; }

}  // namespace versolay
