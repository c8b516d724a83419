// Error messages for a PDF that cannot be read.
#pragma once

#include <string>
#include <string_view>

#include "pdf/unpacking_budget.h"

namespace versolay {

/// Of more pages than these, none are read.
constexpr std::size_t kMostPages = 5000;

/// Translates the exception being handled, thrown while reading a PDF: an Error unchanged;
/// otherwise unpacked too far, locked with a password, not a PDF, or damaged.
/// @param start  the first kilobyte of the file or more, which must contain the header
///               (ISO 32000-1, 7.5.2, and what readers accept).
[[noreturn]] void throw_reading_error(const std::string& file, std::string_view start,
                                      const UnpackingBudget& unpacking);

}  // namespace versolay
