// Pictures: PNG by its chunks, JPEG by its segments, TIFF by the entries of its directories.
#include "mutators/jpeg_parts.h"
#include "mutators/mutation.h"
#include "mutators/png_parts.h"
#include "mutators/tiff_parts.h"

namespace versolay::fuzz {

std::string mutated(const std::string& input, Dice& dice) {
  if (dice.one_in(6)) return changed_bytes(input, dice);
  if (is_png(input)) return mutated_png(input, dice);
  if (is_jpeg(input)) return mutated_jpeg(input, dice);
  if (is_tiff(input)) return mutated_tiff(input, dice);
  return changed_bytes(input, dice);
}

}  // namespace versolay::fuzz
