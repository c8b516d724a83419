// What to tell somebody whose PDF cannot be read.
#pragma once

#include <qpdf/QPDFExc.hh>
#include <string>
#include <string_view>

#include "versolay/result.h"

namespace versolay {

/// Of more pages than these, none are read.
constexpr std::size_t kMostPages = 5000;

/// Locked with a password, no PDF at all, or damaged. `start`: the first kilobyte of the file or
/// more, where the header must stand (ISO 32000-1, 7.5.2, and what readers accept).
Error unreadable_pdf(const std::string& file, std::string_view start, const QPDFExc& e);

/// Of a PDF that was read so far and no further; `detail` is what the library said.
Error damaged_pdf(const std::string& file, const std::string& detail);

}  // namespace versolay
