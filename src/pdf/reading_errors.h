// What to tell somebody whose PDF cannot be read.
#pragma once

#include <string>
#include <string_view>

#include "pdf/unpacking_budget.h"

namespace versolay {

/// Of more pages than these, none are read.
constexpr std::size_t kMostPages = 5000;

/// Throws what the exception that is being handled means for a PDF that was being read: an Error as
/// it is; unpacked too far, locked with a password, no PDF at all, or damaged.
/// @param start  the first kilobyte of the file or more, where the header must stand (ISO 32000-1,
///               7.5.2, and what readers accept).
[[noreturn]] void throw_reading_error(const std::string& file, std::string_view start,
                                      const UnpackingBudget& unpacking);

}  // namespace versolay
