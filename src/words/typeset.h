// Signs that terminals and keyboards lack.
#pragma once

#include <string>

namespace versolay {

/// "+-" is for terminals; in print it is "\u00b1", which stays beside its number.
std::string typeset(std::string text);

}  // namespace versolay
