// TIFF files by the entries of their directories (TIFF 6.0, section 2).
#pragma once

#include "mutators/mutation.h"

namespace versolay::fuzz {

bool is_tiff(std::string_view bytes);
std::string mutated_tiff(const std::string& input, Dice& dice);

}  // namespace versolay::fuzz
