// Registrations in the words of somebody who holds the sheet, numbers with their units.
#pragma once

#include <string>

#include "versolay/advice.h"
#include "versolay/profile.h"

namespace versolay {

/// "0.34 mm (4 px at 300 ppi)"; `mm` without its sign.
std::string length_words(double mm, double ppi);

/// "0.95 mrad (0.054 degrees)"; without the sign.
std::string angle_words(double mrad);

/// How the back landed: "0.34 mm too far right and 0.37 mm too far up, turned 0.95 mrad (0.054
/// degrees) clockwise, seen from the back".
std::string landing_words(const Registration& registration);

/// The verdict of an advice, for people. The first sentence says what to do, the second how sure
/// that is; then uncertainty, yield, sheets to print, centring, what one more sheet would bring.
std::string verdict_words(const Advice& advice, const PrinterProfile& profile);

/// What a profile says: constant part, spread, where it comes from.
std::string profile_words(const PrinterProfile& profile);

}  // namespace versolay
