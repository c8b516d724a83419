#include "words/sentences.h"

#include <array>

namespace versolay::words {

const std::vector<const Sentence*>& all_sentences() {
  static const std::vector<const Sentence*> all = [] {
    std::vector<const Sentence*> list;
    for (const auto* room : {&command_sentences(), &core_sentences(), &target_sentences(),
                             &scan_sentences(), &measure_sentences(), &registration_sentences(),
                             &profile_sentences(), &artwork_sentences(), &pdf_sentences(),
                             &layout_sentences(), &imposition_sentences(), &rehearse_sentences()}) {
      for (const Sentence& sentence : *room) list.push_back(&sentence);
    }
    return list;
  }();
  return all;
}

}  // namespace versolay::words
