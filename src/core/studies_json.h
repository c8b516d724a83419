// The studies of a set of sheets in readings.json and in a profile.
#pragma once

#include "core/json.h"
#include "versolay/study_results.h"

namespace versolay {

/// {"gauge": {...}, "other_turn": {...}, "fed_round": {...}}, those that are there.
Json json_of(const Studies& studies);

/// Those of a document that has them among its keys. Throws Error, naming the place in the file.
Studies studies_at(const JsonPlace& document);

}  // namespace versolay
