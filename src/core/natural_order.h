// Natural order of file names: card2 before card10.
#pragma once

#include <string>

namespace versolay {

bool natural_less(const std::string& a, const std::string& b);

}  // namespace versolay
