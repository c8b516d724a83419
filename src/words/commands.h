// Commands to be run next, ready to paste.
#pragma once

#include <filesystem>
#include <string>

#include "versolay/layout.h"
#include "versolay/printer_profile.h"

namespace versolay {

/// A file name or another word as a shell takes it: quoted where it must be, never an option.
std::string shell_word(const std::string& text);

/// The command that asks a profile for advice, for the commonest card.
std::string advise_command(const std::filesystem::path& profile);

/// The command that lays out a deck of such cards with this profile.
std::string impose_command(const std::filesystem::path& profile, const CardSize& card,
                           const CardGrid& grid);

/// The command that prints test sheets like those of the profile, when it has too few.
std::string more_sheets_command(const PrinterProfile& profile);

}  // namespace versolay
