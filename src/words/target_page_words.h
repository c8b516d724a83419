// The words on a page of the target.
#pragma once

#include <string>

#include "target/page_drawing.h"

namespace versolay::words {

/// @param label  the user's own words; may be empty.
TargetPageWords target_page_words(const PageIdentity& identity, const std::string& label);

/// Of the PDF.
std::string target_title(const std::string& paper, const std::string& run);

PassPageWords pass_page_words(int pass, Side side);

}  // namespace versolay::words
