// PNG files by their chunks (W3C PNG, third edition, chapter 5).
#pragma once

#include "mutators/mutation.h"

namespace versolay::fuzz {

bool is_png(std::string_view bytes);
std::string mutated_png(const std::string& input, Dice& dice);

}  // namespace versolay::fuzz
