// JPEG files by their segments (ITU-T T.81, annex B).
#pragma once

#include "mutators/mutation.h"

namespace versolay::fuzz {

bool is_jpeg(std::string_view bytes);
std::string mutated_jpeg(const std::string& input, Dice& dice);

}  // namespace versolay::fuzz
