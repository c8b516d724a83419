// Commands to be run next, ready to paste.
#pragma once

#include <string>

#include "versolay/profile.h"

namespace versolay {

/// A word as a shell takes it: in quotes where it needs them.
std::string shell_word(const std::string& text);

/// The command that prints test sheets like those of the profile, when it has too few.
std::string more_sheets_command(const PrinterProfile& profile);

}  // namespace versolay
