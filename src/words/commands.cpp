#include "words/commands.h"

#include <fmt/format.h>

namespace versolay {

std::string more_sheets_command(const PrinterProfile& profile) {
  return fmt::format("versolay target --paper {} --turn {} --sheets 10 --out target.pdf",
                     profile.paper.name, to_string(profile.turn));
}

}  // namespace versolay
