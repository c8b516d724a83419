// The user's profiles as text: a list, a note to pin up, a table.
#pragma once

#include <string>

#include "profile/profile_shelf.h"
#include "words/display_unit.h"

namespace versolay {

/// A line a profile: file, printer and how it was set up, sheets, mean and spread.
std::string shelf_words(const ProfileShelf& shelf, const DisplayUnit& unit = {});

/// What is done about the backs: "moved 0.41 mm left ...".
std::string backs_words(const PrinterProfile& profile, const DisplayUnit& unit = {});

/// What is needed beside the printer, in a dozen short lines: to print out and pin up.
std::string profile_note(const PrinterProfile& profile, const DisplayUnit& unit = {});

/// The feeds of a profile as CSV (RFC 4180): session, sheet, run, the six components, left_out.
std::string profile_csv(const PrinterProfile& profile);

}  // namespace versolay
