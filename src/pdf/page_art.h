// Pages of a PDF as the artwork of cards.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace versolay {

/// One page of a PDF file, to be painted like an image but never turned into pixels.
struct PageArt {
  std::string file;
  int page = 1;           // counted from 1
  double width_mm = 0.0;  // as it is shown, bleed included
  double height_mm = 0.0;
  double bleed_mm = 0.0;  // around the TrimBox, equal on all sides; 0 when the page has no TrimBox

  bool operator==(const PageArt&) const = default;
};

/// All pages of a PDF. A page with a TrimBox inside its visible part is the trimmed card with as
/// much bleed as there is on all four sides; a page without is the card itself.
/// Throws Error when the file is not a PDF, damaged, locked, protected or without pages, or when
/// one of them has no size.
std::vector<PageArt> read_page_art(const std::filesystem::path& path);

bool has_pdf_name(const std::filesystem::path& path);

}  // namespace versolay
