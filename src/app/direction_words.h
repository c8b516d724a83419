// Shifts and turns of the back artwork, said the way people push paper about.
#pragma once

#include <string>

#include "versolay/registration.h"

namespace versolay {

/// "0.42 mm to the left and 0.21 mm up (5 px and 2 px at 300 ppi)"; "not at all" when both are
/// under 0.005 mm. x to the right, y down, as one looks at the page.
std::string shift_in_words(double dx_mm, double dy_mm, double ppi);

/// "turned 0.07 degrees clockwise"; empty under 0.001 degrees.
std::string turn_in_words(double rotation_mrad);

/// What happens to the back artwork under R^-1, in one phrase.
std::string correction_in_words(const Registration& mean, double ppi);

}  // namespace versolay
