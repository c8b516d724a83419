// Sizes of cards that have a name.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "versolay/layout.h"

namespace versolay {

/// "63x88" (mm), or a name: standard, poker, bridge, tarot, half-size, mini, square, id-1.
/// nullopt: neither.
std::optional<CardSize> card_size_from(std::string_view text);

/// The names with their sizes, for messages and help.
std::string card_format_list();

}  // namespace versolay
