// Why a hole or an edge could not be read, in a few words: "hole H3: too pale".
#pragma once

#include <string>

#include "measure/edge.h"
#include "measure/hole.h"

namespace versolay {

std::string words_for(HoleMiss miss);
std::string words_for(EdgeMiss miss);

}  // namespace versolay
