// The text of a comparison of set-ups.
#pragma once

#include <string>
#include <vector>

#include "profile/comparison.h"
#include "profile/foretold_turn.h"
#include "words/display_unit.h"

namespace versolay {

std::string compare_words(const std::vector<Comparison>& comparisons,
                          const std::vector<ForetoldTurn>& foretold,
                          const std::vector<ChanceTest>& chance, const DisplayUnit& unit = {});

}  // namespace versolay
