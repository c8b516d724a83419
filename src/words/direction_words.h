// Directions, lengths and angles of the back, worded as people move paper: the only room where
// signs become words. x to the right, y down, rotation clockwise, seen from the back.
#pragma once

#include <string>

#include "versolay/registration.h"
#include "words/display_unit.h"

namespace versolay {

// Lengths are given in the display unit (words/display_unit.h), without their sign; where pixels
// are in brackets and the display unit is pixels, pixels come first: "4 px (0.34 mm)".

/// "0.34 mm". What is not zero never reads "0.00 mm": "0.004 mm", "under 0.001 mm".
std::string distance_words(double mm, const DisplayUnit& unit = {});
/// "0.34 mm", rounded up: an oversize is never rounded down.
std::string distance_words_up(double mm, const DisplayUnit& unit = {});
/// "0.34 mm (4 px at 300 ppi)".
std::string length_words(double mm, double ppi, const DisplayUnit& unit = {});
/// "0.34 mm (4 px)".
std::string short_length_words(double mm, double ppi, const DisplayUnit& unit = {});
/// An oversize of a side, rounded up to whole pixels: "0.97 mm (12 px)", "0.97 mm (12 px at 300
/// ppi)".
std::string oversize_length_words(double mm, int px, const DisplayUnit& unit = {});
std::string oversize_length_words(double mm, int px, double ppi, const DisplayUnit& unit = {});
/// "0.054 degrees", without the sign.
std::string angle_words(double mrad);
const char* across_words(double dx);  // "right", "left"
const char* along_words(double dy);   // "down", "up"
const char* sense_words(double th);   // "clockwise", "anticlockwise"

/// How the back landed: "0.34 mm too far right and 0.37 mm too far up, turned 0.054 degrees
/// clockwise, seen from the back". An offset under 0.005 mm is left out; without any it is
/// "within 0.01 mm of its place".
std::string landing_words(const Registration& registration, const DisplayUnit& unit = {});

/// "0.42 mm (5 px) to the left and 0.21 mm (2.5 px) up"; "not at all" when both are under 0.005 mm.
/// x to the right, y down, as one looks at the page.
std::string shift_in_words(double dx_mm, double dy_mm, double ppi, const DisplayUnit& unit = {});

/// What is done to the back artwork under R^-1 of the mean: "moved 0.42 mm (5 px at 300 ppi) to the
/// left and 0.21 mm (2.5 px at 300 ppi) up, turned 1.7 mrad (0.097 degrees) anticlockwise, seen
/// from the back"; "left where they are" when that is less than 0.005 mm and 0.005 mrad.
std::string correction_in_words(const Registration& mean, double ppi, const DisplayUnit& unit = {});

}  // namespace versolay
