// The progress line on stderr: shown after one second of work, rewritten in place.
#pragma once

#include <string>

#include "core/progress.h"

namespace versolay::cli {

Progress terminal_progress();
void clear_progress();

/// "printing and scanning: 5 of 20, 21 % of everything, about 3 minutes left". The time left goes
/// by what was done in the seconds so far.
std::string progress_words(const WorkDone& work, double seconds_so_far);

/// "about 40 s left", "about 3 minutes left"; rounded up. "" for nothing.
std::string time_left_words(double seconds);

}  // namespace versolay::cli
