// The studies of a set of sheets in readings.json and in a profile.
#pragma once

#include "core/json.h"
#include "versolay/studies.h"

namespace versolay {

/// {"gauge": {...}, "other_turn": {...}, "fed_round": {...}}, those that are there. They follow
/// from the sheets and are never read back.
Json json_of(const Studies& studies);

}  // namespace versolay
