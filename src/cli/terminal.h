// Progress on stderr. For people one line, shown after one second of work and rewritten in place;
// for programs a JSON line at most ten times a second.
#pragma once

#include "core/progress.h"

namespace versolay::cli {

Progress terminal_progress();
void clear_progress();

/// The environment variable VERSOLAY_PROGRESS is "lines".
bool progress_lines_are_wanted();
/// {"progress":{"what":...,"done":...,"total":...}} a line.
Progress progress_lines();

}  // namespace versolay::cli
