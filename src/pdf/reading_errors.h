// What to tell somebody whose PDF cannot be read.
#pragma once

#include <qpdf/QPDFExc.hh>
#include <string>
#include <string_view>

#include "versolay/result.h"

namespace versolay {

/// Locked with a password, no PDF at all, or damaged. `start`: the first kilobyte of the file or
/// more, where the header must stand (ISO 32000-1, 7.5.2, and what readers accept).
Error unreadable_pdf(const std::string& file, std::string_view start, const QPDFExc& e);

}  // namespace versolay
