// Readings whose numbers may be wrong, as opposed to merely less precise.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "versolay/result.h"

namespace versolay {

/// Does a warning of this kind mean that the numbers of the sheet themselves may be wrong, because
/// two things that should agree do not and nothing shows which of them is at fault? Only this table
/// decides; profile and advise use it.
bool casts_doubt(std::string_view code);

/// The codes of these warnings that cast doubt, each once, in their order.
std::vector<std::string> doubts_in(const Notices& warnings);

}  // namespace versolay
