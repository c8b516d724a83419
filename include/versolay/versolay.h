// The public library: from scans to readings, from readings to a profile of the printer, from a
// profile to what is to be done about the backs. Frames and signs: versolay/frames.h. Nothing here
// is aware of image, PDF or JSON libraries.
//
//   find_package(Versolay REQUIRED)
//   target_link_libraries(program PRIVATE Versolay::versolay)
//
// Normal negative outcomes come back as a Refusal in the Result; a broken environment (a file that
// cannot be read, a field out of its range) throws Error. sentence() says either to a person.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "versolay/advice.h"
#include "versolay/finding.h"
#include "versolay/frames.h"
#include "versolay/layout.h"
#include "versolay/paper.h"
#include "versolay/printer_profile.h"
#include "versolay/result.h"
#include "versolay/sheet_readings.h"

namespace versolay {

/// Scans of printed targets, or of sheets of a job, both sides of each, in any order and
/// orientation: PNG, JPEG, TIFF or PDF. `rejected` of the result says what was not used, and why.
/// @param threads  0: one per core.
/// @fails  no_sheets: not one sheet could be read.
/// Throws Error when a file does not exist, or none of them can be opened.
Result<Readings> readings_of_scans(const std::vector<std::filesystem::path>& scans,
                                   int threads = 0);

/// Readings as they are kept in a file.
Readings load_readings(const std::filesystem::path& file);
void save_readings(const Readings& readings, const std::filesystem::path& file);

/// A profile of the printer, of one or several sessions of printing.
/// @param labels  what the sheets were printed with, in the user's words.
/// @fails  when the readings do not make one profile: other papers, other turns, no sheets.
Result<PrinterProfile> profile_of_readings(const std::vector<Readings>& sessions,
                                           const ProfileLabels& labels);

PrinterProfile load_profile(const std::filesystem::path& file);
void save_profile(const PrinterProfile& profile, const std::filesystem::path& file);

/// How to move and how much to enlarge the backs of the cards of `request`.
/// @fails  too_few_sheets, no_spread: no oversize can be promised.
Result<Advice> advice_of_profile(const PrinterProfile& profile, const AdviceRequest& request);

/// Where each point of the back page must be drawn so that it lands where it should (verso view,
/// mm): the inverse of what the printer does on average.
Affine<VersoMm, VersoMm> corrected_back_page(const PrinterProfile& profile);

/// The sentence for a person, in English. "hole_off" -> "Hole P3 disagrees with the others by ...".
std::string sentence(const Finding& finding);
std::string sentence(const Error& error);

}  // namespace versolay
