// Progress on stderr. For people one line, shown after one second of work and rewritten in place;
// for programs a JSON line at most ten times a second.
#pragma once

#include <string>

#include "core/progress.h"

namespace versolay::cli {

Progress terminal_progress();
void clear_progress();

/// "printing and scanning: 5 of 20, 21 % in total, about 3 minutes left". The time left goes
/// by what was done in the seconds so far.
std::string progress_words(const WorkDone& work, double seconds_so_far);

/// "about 40 s left", "about 3 minutes left"; rounded up. "" for nothing.
std::string time_left_words(double seconds);

/// The environment variable VERSOLAY_PROGRESS is "lines".
bool progress_lines_are_wanted();
/// {"progress":{"what":...,"done":...,"total":...}} a line.
Progress progress_lines();

}  // namespace versolay::cli
