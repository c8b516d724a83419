#include "words/layer_words.h"

#include <algorithm>
#include <cmath>

#include "words/direction_words.h"
#include "words/translation.h"

namespace versolay::words {

BackLayerWords back_layer_words(const Registration& shift, const Reach& oversize, double gutter_mm,
                                double ppi) {
  BackLayerWords words;
  words.title = tr("Backs, seen from the back.");
  words.cut = tr("the cards are cut here");
  words.place = tr("put the back images here");
  const double oversize_mm = std::max(oversize.x_mm, oversize.y_mm);
  if (oversize_mm > 0) {
    const double px = std::ceil(artwork_px_from_mm(oversize_mm, ppi) - 1e-6);
    const std::string reach = oversize_length_words(oversize_mm, static_cast<int>(px), ppi);
    words.reach = gutter_mm > 0 ? tr("and let them reach {} beyond", reach)
                                : tr("and let them reach {} beyond the outer edges", reach);
  }
  words.shift = tr("all backs move {}; arrow: {} times as long",
                   shift_in_words(shift.dx_mm, shift.dy_mm, ppi), kShiftArrowScale);
  return words;
}

}  // namespace versolay::words
