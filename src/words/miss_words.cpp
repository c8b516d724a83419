#include "words/miss_words.h"

#include "words/translation.h"

namespace versolay::words {

std::string words_for(HoleMiss miss) {
  switch (miss) {
    case HoleMiss::outside:
      return tr("not in the picture");
    case HoleMiss::none_made:
      return tr("no hole");
    case HoleMiss::poor_contrast:
      return tr("too pale, put black card behind the sheet");
    case HoleMiss::uneven_light:
      return tr("light and shadow inside it, put black card behind the sheet");
    case HoleMiss::cut_off:
      return tr("something dark reaches the dashed circle: dirt, or a hole across it");
    case HoleMiss::wrong_size:
      return tr("of an unusual size");
    case HoleMiss::ragged:
      return tr("torn, covered or not round");
    case HoleMiss::marks_smeared:
      return tr("the rings around it are smeared, or the paper is not flat");
  }
  return "";
}

std::string words_for(EdgeMiss miss) {
  switch (miss) {
    case EdgeMiss::outside:
      return tr("not in the picture");
    case EdgeMiss::cut_off:
      return tr("cut off by the picture");
    case EdgeMiss::poor_contrast:
      return tr("as pale as the background");
    case EdgeMiss::ragged:
      return tr("rough, torn or in shadow");
  }
  return "";
}

std::string datum_words(const Datums& datums) {
  if (datums.by_eye) return tr("readings by eye");
  if (datums.punched && datums.pricked) {
    return datums.edges ? tr("punched and pricked holes and paper edges")
                        : tr("punched and pricked holes");
  }
  if (datums.punched) {
    return datums.edges ? tr("punched holes and paper edges") : tr("punched holes");
  }
  if (datums.pricked) {
    return datums.edges ? tr("pricked holes and paper edges") : tr("pricked holes");
  }
  return tr("paper edges");
}

}  // namespace versolay::words
