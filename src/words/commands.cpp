#include "words/commands.h"

#include <fmt/format.h>

#include <string_view>

#include "core/numbers.h"
#include "core/utf8.h"

namespace versolay {

std::string shell_word(const std::string& text) {
  if (text.starts_with('-')) return shell_word("./" + text);
  constexpr std::string_view kPlain =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789._/-+";
  if (!text.empty() && text.find_first_not_of(kPlain) == std::string::npos) return text;
  std::string quoted = "'";
  for (char c : text) quoted += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return quoted + "'";
}

std::string advise_command(const std::filesystem::path& profile) {
  return fmt::format("versolay advise {} --card 63x88 --grid auto", shell_word(profile.string()));
}

std::string impose_command(const std::filesystem::path& profile, const CardSize& card,
                           const CardGrid& grid) {
  return fmt::format(
      "versolay impose --fronts fronts --back back.png --card {}x{} --grid {}x{}{} --profile {} "
      "--out deck.pdf",
      format_number(card.width_mm, 3), format_number(card.height_mm, 3), grid.columns, grid.rows,
      grid.gutter_mm > 0 ? " --gutter " + format_number(grid.gutter_mm, 3) : "",
      shell_word(valid_utf8(profile.string())));
}

std::string more_sheets_command(const PrinterProfile& profile) {
  return fmt::format("versolay target --paper {} --turn {} --sheets 10 --out target.pdf",
                     profile.paper.name, to_string(profile.turn));
}

}  // namespace versolay
