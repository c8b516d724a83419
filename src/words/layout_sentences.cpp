#include "layout/findings.h"
#include "words/sentences.h"

namespace versolay::words {

using namespace findings;

const std::vector<Sentence>& layout_sentences() {
  static const std::vector<Sentence> sentences = {
      {gutter_out_of_range, tr_noop("is {gutter_mm:~2}, must be from 0 to 100 mm")},
      {margin_out_of_range, tr_noop("is {margin_mm:~2}, must be from 0 to 50 mm")},
      {blocks_out_of_range, tr_noop("is {blocks}, must be 1 or 2")},
      {grid_not_halved, tr_noop("{columns} x {rows} cards cannot be laid out as two equal blocks "
                                "on {paper}, one on each half. Use --blocks 1, or a grid with an "
                                "even number of cards along the longer side of the paper.")},
      {card_size_out_of_range,
       tr_noop("is {width_mm:~2} x {height_mm:~2}, must be 10 to 600 mm each way, such as 63x88")},
      {grid_shape_out_of_range,
       tr_noop("is {columns}x{rows}, must be columns x rows, such as 3x3")},
      {no_card_fits,
       tr_noop("No card fits on the sheet: with its bleed ({bleed_mm:~2}) it needs {width_mm:~2} x "
               "{height_mm:~2}, and the margins of {paper} leave {room_width_mm:~1} x "
               "{room_height_mm:~1}. Use larger paper or a smaller margin (--margin).")},
      {block_too_large,
       tr_noop("A block of {columns} x {rows} cards needs {width_mm:~1} x {height_mm:~1} (or with "
               "the cards on their side {width_on_side_mm:~1} x {height_on_side_mm:~1}); the "
               "margins of {paper} leave {room_width_mm:~1} x {room_height_mm:~1}. Use fewer cards "
               "(--grid auto finds the most), a smaller gutter or larger paper.")},
      {oversize_reduced,
       tr_noop("The oversize at the {where:word} was reduced from {wanted_mm:~2} to "
               "{granted_mm:~2} because the printer cannot ink more: expect more cards with a "
               "sliver there. Fewer cards on the sheet, a smaller gutter or a smaller --margin (if "
               "the printer allows) restore it.")},
      {block_moved, tr_noop("All cards were moved {way:word} by {by_mm:~2} (seen from the front; "
                            "backs and cuts move with them), so that the corrected and enlarged "
                            "backs stay inside the printable area.")},
      {block_moved_both_ways,
       tr_noop("All cards were moved {across:word} by {across_mm:~2} and {along:word} by "
               "{along_mm:~2} (seen from the front; backs and cuts move with them), so that the "
               "corrected and enlarged backs stay inside the printable area.")},
      {too_large_to_print,
       tr_noop(
           "The cards, {cards:word}, are {too_wide_mm:~2} too wide and {too_high_mm:~2} too high "
           "for the printable area of {paper}, even without any oversize. Use fewer cards "
           "(--grid), a smaller gutter, less bleed, or a smaller --margin if the printer allows.")},
      {too_wide_to_print,
       tr_noop("The cards, {cards:word}, are {too_wide_mm:~2} too wide for the printable area of "
               "{paper}, even without any oversize. Use fewer cards (--grid), a smaller gutter, "
               "less bleed, or a smaller --margin if the printer allows.")},
      {too_high_to_print,
       tr_noop("The cards, {cards:word}, are {too_high_mm:~2} too high for the printable area of "
               "{paper}, even without any oversize. Use fewer cards (--grid), a smaller gutter, "
               "less bleed, or a smaller --margin if the printer allows.")},
      {cut_halving, tr_noop("halve the sheet between the two blocks")},
      {cut_first_edge, tr_noop("{edge:word} edge of the block: edge 1")},
      {cut_second_edge, tr_noop("{edge:word} edge of the block: edge 2")},
      {cut_opposite_edge, tr_noop("{edge:word} edge of the block")},
      {cut_far_side, tr_noop("{piece:word} {number}: far side of the gutter")},
      {cut_near_side, tr_noop("{piece:word} {number}: near side, the gutter falls off")},
      {cut_between, tr_noop("between {piece:word} {number} and {next}")},
      {cut_in_waste, tr_noop("in waste: it need not be exact")},
      {cut_along_the_guides, tr_noop("the long edge, blade on the guides of both ends")},
      {cut_square_to,
       tr_noop("square to cut {cut}: its edge against the side stop, blade on the guides")},
      {cut_to_check, tr_noop("check against the guides before cutting")},
  };
  return sentences;
}

}  // namespace versolay::words
