// A note in the metadata of a PDF that its backs are already moved: moved twice, they would be as
// wrong as before, in the other direction.
#pragma once

#include <optional>
#include <qpdf/QPDF.hh>

#include "versolay/registration.h"

namespace versolay {

/// Into the information dictionary, and into the piece information of the catalogue, which other
/// programs keep (ISO 32000-2, 14.3.3 and 14.5).
/// @param correction  what the back artwork went through; of fitted backs, that of the job.
void mark_correction(QPDF& pdf, const Registration& correction);

/// The note, from either place; zeros where it is there but cannot be read. nullopt: none.
std::optional<Registration> marked_correction(QPDF& pdf);

}  // namespace versolay
