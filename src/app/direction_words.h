// Shifts and turns of the back artwork, said the way people push paper about.
#pragma once

#include <string>

#include "versolay/registration.h"

namespace versolay {

/// What is done to the back artwork under R^-1 of the mean: "moved 0.42 mm (5 px at 300 ppi) to the
/// left and 0.21 mm (2.5 px at 300 ppi) up, turned 1.7 mrad (0.097 degrees) anticlockwise, seen
/// from the back"; "left where they are" when that is less than 0.005 mm and 0.005 mrad.
std::string correction_in_words(const Registration& mean, double ppi);

}  // namespace versolay
