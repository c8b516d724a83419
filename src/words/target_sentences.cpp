#include "target/findings.h"
#include "words/sentences.h"

namespace versolay::words {

using namespace findings;

const std::vector<Sentence>& target_sentences() {
  static const std::vector<Sentence> sentences = {
      {not_an_anchor, tr_noop("is not an anchor of the page")},
      {too_few_rings, tr_noop("must have 4 rings or more")},
      {not_an_edge, tr_noop("must be top, bottom, left or right")},
      {not_a_mark_number, tr_noop("must be from 1 to 8")},
      {not_a_hole_kind, tr_noop("must be punch or prick")},
      {not_a_way_inward, tr_noop("must be down or up")},
      {not_a_scale_direction, tr_noop("must be across or down")},
      {wrong_number_of_tags, tr_noop("must have 2 to 8 places")},
      {no_room_for_passes,
       tr_noop("use fewer passes: this paper has no room for the marks of so many")},
      {paper_not_fit_for_target,
       tr_noop("the target fits paper from {least_width_mm:~1} x {least_height_mm:~1} to "
               "{most_width_mm:~1} x {most_height_mm:~1}. Calibrate on a larger sheet of the "
               "same stock")},
  };
  return sentences;
}

}  // namespace versolay::words
