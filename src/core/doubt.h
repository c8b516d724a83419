// Readings whose numbers may be wrong, as against those that are merely less sharp.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "versolay/result.h"

namespace versolay {

/// Does a warning of this kind mean that the numbers of the sheet themselves may be wrong: two
/// things that should agree do not, and nothing tells which of them is at fault? The table is the
/// only place where this is decided; profile and advise go by it.
bool casts_doubt(std::string_view code);

/// The codes of these warnings that cast doubt, each once, in their order.
std::vector<std::string> doubts_in(const Notices& warnings);

}  // namespace versolay
