#include "artwork/lettering.h"

#include <ft2build.h>

#include <algorithm>
#include <cmath>
#include <string>
#include FT_FREETYPE_H
#include FT_OUTLINE_H

#include "artwork/findings.h"
#include "core/expect.h"
#include "core/font_file.h"
#include "core/utf8.h"
#include "versolay/result.h"

namespace versolay {
namespace {

constexpr double kFraction = 64.0;  // FreeType counts in 64ths of a pixel

/// Hinted upright only: crisp base lines, widths as they were designed.
constexpr FT_Int32 kLoad = FT_LOAD_NO_BITMAP | FT_LOAD_TARGET_LIGHT;

}  // namespace

struct Lettering::Font {
  std::string file;
  FT_Library library = nullptr;
  FT_Face face = nullptr;

  explicit Font(bool bold) : file(font_file(bold).string()) {
    if (FT_Init_FreeType(&library) != 0) throw std::bad_alloc();
    if (FT_New_Face(library, file.c_str(), 0, &face) != 0) {
      FT_Done_FreeType(library);
      throw Error(file, findings::font_damaged());
    }
  }
  Font(const Font&) = delete;
  Font& operator=(const Font&) = delete;
  ~Font() {
    FT_Done_Face(face);
    FT_Done_FreeType(library);
  }

  void check(FT_Error error) const {
    if (error != 0) throw Error(file, findings::font_damaged());
  }

  /// Calls `use(pen_px)` with each letter loaded in turn. Returns the advance of all.
  template <class Use>
  double each_letter(std::string_view utf8, double size_px, const Use& use) const {
    expect(size_px >= 4 && size_px <= 1000);
    check(FT_Set_Char_Size(face, 0, std::lround(size_px * kFraction), 72, 72));
    const std::string text = valid_utf8(utf8);
    double pen = 0.0;
    for (std::size_t i = 0; i < text.size();) {
      const auto letter = first_character(std::string_view(text).substr(i));
      check(FT_Load_Char(face, letter->code_point, kLoad));
      use(pen);
      pen += static_cast<double>(face->glyph->linearHoriAdvance) / 65536.0;
      i += letter->bytes;
    }
    return pen;
  }

  /// The bitmap of the loaded letter, moved to the right by a part of a pixel.
  const FT_GlyphSlotRec& rendered(double fraction_px) const {
    FT_Outline_Translate(&face->glyph->outline, std::lround(fraction_px * kFraction), 0);
    check(FT_Render_Glyph(face->glyph, FT_RENDER_MODE_NORMAL));
    return *face->glyph;
  }
};

Lettering::Lettering(bool bold) : font_(std::make_unique<Font>(bold)) {}
Lettering::Lettering(Lettering&&) noexcept = default;
Lettering& Lettering::operator=(Lettering&&) noexcept = default;
Lettering::~Lettering() = default;

double Lettering::width_px(std::string_view utf8, double size_px) const {
  return font_->each_letter(utf8, size_px, [](double) {});
}

LetteredLine Lettering::line(std::string_view utf8, double size_px) const {
  const int reach = static_cast<int>(std::ceil(size_px));  // letters may reach beyond their advance
  LetteredLine line;
  line.left_px = -reach;
  line.top_px = -2 * reach;  // accents on capitals
  line.width_px = static_cast<int>(std::ceil(width_px(utf8, size_px))) + 2 * reach;
  line.height_px = 3 * reach;
  line.cover.assign(
      static_cast<std::size_t>(line.width_px) * static_cast<std::size_t>(line.height_px), 0);
  font_->each_letter(utf8, size_px, [&](double pen_px) {
    const double whole = std::floor(pen_px);
    const FT_GlyphSlotRec& glyph = font_->rendered(pen_px - whole);
    const int left = static_cast<int>(whole) + glyph.bitmap_left - line.left_px;
    const int top = -glyph.bitmap_top - line.top_px;
    for (int y = 0; y < static_cast<int>(glyph.bitmap.rows); ++y) {
      for (int x = 0; x < static_cast<int>(glyph.bitmap.width); ++x) {
        if (left + x < 0 || left + x >= line.width_px || top + y < 0 || top + y >= line.height_px) {
          continue;
        }
        std::uint8_t& cover =
            line.cover[static_cast<std::size_t>(top + y) * static_cast<std::size_t>(line.width_px) +
                       static_cast<std::size_t>(left + x)];
        cover = std::max(cover, glyph.bitmap.buffer[y * glyph.bitmap.pitch + x]);
      }
    }
  });
  return line;
}

}  // namespace versolay
