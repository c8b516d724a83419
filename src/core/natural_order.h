// Order of file names as people mean it: card2 before card10.
#pragma once

#include <string>

namespace versolay {

bool natural_less(const std::string& a, const std::string& b);

}  // namespace versolay
