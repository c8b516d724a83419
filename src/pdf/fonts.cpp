#include "pdf/fonts.h"

#include <array>
#include <cstdint>
#include <optional>

#include "core/utf8.h"
#include "pdf/findings.h"
#include "pdf/haru.h"
#include "versolay/result.h"

namespace versolay {
namespace {

constexpr char kReplacement[] = "\xEF\xBF\xBD";

/// A libharu document that holds the fonts for measuring only.
struct Ruler {
  HaruDocument document;
  std::array<HPDF_Font, 2> fonts{document.font(false), document.font(true)};
};

}  // namespace

std::string printable_text(std::string_view text) {
  std::string result;
  for (std::size_t i = 0; i < text.size();) {
    const auto decoded = first_character(text.substr(i));
    if (!decoded) {
      throw Error("", findings::printed_text_not_utf8(static_cast<std::int64_t>(i + 1)));
    }
    const bool plain = decoded->code_point >= 0x20 && decoded->code_point <= 0xFFFF &&
                       !(decoded->code_point >= 0x7F && decoded->code_point < 0xA0);
    result += plain ? text.substr(i, decoded->bytes) : std::string_view(kReplacement);
    i += decoded->bytes;
  }
  return result;
}

double text_width_mm(std::string_view utf8, double size_mm, bool bold) {
  thread_local Ruler ruler;
  const std::string text = printable_text(utf8);
  const HPDF_TextWidth width = HPDF_Font_TextWidth(ruler.fonts[bold ? 1 : 0],
                                                   reinterpret_cast<const HPDF_BYTE*>(text.data()),
                                                   static_cast<HPDF_UINT>(text.size()));
  ruler.document.check("measuring a text");
  return width.width / 1000.0 * size_mm;
}

}  // namespace versolay
