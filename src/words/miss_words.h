// What a sheet was read by, and why a place could not be read, in a few words: "H3: too pale".
#pragma once

#include <string>

#include "measure/hole.h"
#include "measure/paper_edge.h"
#include "versolay/sheet_readings.h"

namespace versolay::words {

std::string words_for(HoleMiss miss);
std::string words_for(EdgeMiss miss);
/// "punched holes and paper edges".
std::string datum_words(const Datums& datums);

}  // namespace versolay::words
