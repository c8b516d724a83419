// Lengths as people type them: mm, px, cm or inches, behind the number.
#pragma once

#include <string>

namespace versolay::cli {

/// How lengths are typed for an option.
struct LengthRule {
  double most_mm = 0.0;  // a number without a unit above this can only be pixels
  bool list = false;     // a comma separates lengths; else it is a decimal comma
};

/// The same text in millimetres, without units: "744x1039px" at 300 ppi is "62.992x87.968667". A
/// number without a unit takes that of the next one, else mm. Also taken: "63 x 88", "63×88",
/// "63*88", "0,7". What does not consist of lengths ("poker", "auto") is returned as it is.
/// Throws Error, naming the option, for numbers that can only be pixels.
std::string in_mm(const std::string& option, const std::string& text, const LengthRule& rule,
                  double ppi);

}  // namespace versolay::cli
