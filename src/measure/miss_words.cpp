#include "measure/miss_words.h"

namespace versolay {

std::string words_for(HoleMiss miss) {
  switch (miss) {
    case HoleMiss::outside:
      return "not in the picture";
    case HoleMiss::none_made:
      return "no hole";
    case HoleMiss::poor_contrast:
      return "too pale, put black card behind the sheet";
    case HoleMiss::uneven_light:
      return "light and shadow inside it, put black card behind the sheet";
    case HoleMiss::cut_off:
      return "not inside its circle";
    case HoleMiss::wrong_size:
      return "of an odd size";
    case HoleMiss::ragged:
      return "torn, covered or not round";
    case HoleMiss::marks_smeared:
      return "the rings around it are smeared, or the paper is not flat";
  }
  return "";
}

std::string words_for(EdgeMiss miss) {
  switch (miss) {
    case EdgeMiss::outside:
      return "not in the picture";
    case EdgeMiss::cut_off:
      return "cut off by the picture";
    case EdgeMiss::poor_contrast:
      return "as pale as what lies behind";
    case EdgeMiss::ragged:
      return "rough, torn or in shadow";
  }
  return "";
}

}  // namespace versolay
