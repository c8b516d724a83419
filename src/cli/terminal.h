// The progress line on stderr: shown after one second of work, rewritten in place.
#pragma once

#include "core/progress.h"

namespace versolay::cli {

Progress terminal_progress();
void clear_progress();

}  // namespace versolay::cli
