// Words in pictures, in the fonts that pages are set in.
#pragma once

#include <cstdint>
#include <memory>
#include <string_view>
#include <vector>

namespace versolay {

/// How much of each pixel a line of words covers, 0 to 255, row by row. `left_px` and `top_px` say
/// where the first pixel is, from the point on the base line where the words begin; y down.
struct LetteredLine {
  int left_px = 0;
  int top_px = 0;
  int width_px = 0;
  int height_px = 0;
  std::vector<std::uint8_t> cover;

  std::uint8_t at(int x, int y) const {
    return cover[static_cast<std::size_t>(y) * static_cast<std::size_t>(width_px) +
                 static_cast<std::size_t>(x)];
  }
};

/// DejaVu Sans, from its file (core/font_file.h). Bytes that are not UTF-8 are shown as U+FFFD. One
/// object must not be used by two threads at once.
class Lettering {
 public:
  /// Throws Error when the font is missing or damaged.
  explicit Lettering(bool bold = false);
  Lettering(Lettering&&) noexcept;
  Lettering& operator=(Lettering&&) noexcept;
  ~Lettering();

  /// Advance width of the words. @param size_px  height of the em square, 4 to 1000.
  double width_px(std::string_view utf8, double size_px) const;
  LetteredLine line(std::string_view utf8, double size_px) const;

 private:
  struct Font;
  std::unique_ptr<Font> font_;
};

}  // namespace versolay
