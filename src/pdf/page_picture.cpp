#include "pdf/page_picture.h"

#include <charconv>
#include <string_view>

#include "core/helper_process.h"
#include "core/numbers.h"

namespace versolay {
namespace {

constexpr int kMostPx = 20000;  // a side

/// The next number of a PGM header.
std::optional<int> take_number(std::string_view& text) {
  while (!text.empty() && (text[0] == ' ' || text[0] == '\n')) text.remove_prefix(1);
  int value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || value < 1 || value > kMostPx) return std::nullopt;
  text.remove_prefix(static_cast<std::size_t>(end - text.data()));
  return value;
}

/// Source  Netpbm, pgm(5): "P5", width, height, largest value, one blank, the rows.
std::optional<Raster> grey_from_pgm(std::string_view text) {
  if (!text.starts_with("P5")) return std::nullopt;
  text.remove_prefix(2);
  const auto width = take_number(text);
  const auto height = width ? take_number(text) : std::nullopt;
  const auto largest = height ? take_number(text) : std::nullopt;
  if (largest != 255 || text.empty()) return std::nullopt;
  text.remove_prefix(1);
  const auto pixels = static_cast<std::size_t>(*width) * static_cast<std::size_t>(*height);
  if (text.size() < pixels) return std::nullopt;
  Raster grey;
  grey.width_px = *width;
  grey.height_px = *height;
  grey.channels = 1;
  grey.samples.reserve(pixels);
  for (const char c : text.substr(0, pixels)) grey.samples.push_back(static_cast<unsigned char>(c));
  return grey;
}

}  // namespace

std::optional<Raster> picture_of_page(const std::filesystem::path& pdf, int page, double ppi) {
  const std::string number = std::to_string(page);
  const std::string path = pdf.string();
  const HelperResult drawn =
      run_helper({"pdftoppm", "-q", "-gray", "-singlefile", "-r", format_number(ppi, 3), "-f",
                  number, "-l", number, path.starts_with('-') ? "./" + path : path},
                 {});
  if (!drawn.finished || drawn.exit_code != 0) return std::nullopt;
  return grey_from_pgm(drawn.output);
}

}  // namespace versolay
