// Inputs that have no parts.
#include "mutators/mutation.h"

namespace versolay::fuzz {

std::string mutated(const std::string& input, Dice& dice) { return changed_bytes(input, dice); }

}  // namespace versolay::fuzz
