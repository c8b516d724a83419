#include "imposition/findings.h"
#include "words/sentences.h"

namespace versolay::words {

using namespace findings;

const std::vector<Sentence>& imposition_sentences() {
  static const std::vector<Sentence> sentences = {
      {folder_not_listed, tr_noop("cannot be listed: {reason}")},
      {folder_without_art, tr_noop("has no JPEG, PNG, TIFF or PDF files. Name another folder")},
      {no_back_of_group,
       tr_noop("has no back named \"{name}\" for the group of fronts in {fronts}")},
      {no_cards, tr_noop("asks for no cards: every quantity is 0")},
      {card_without_back, tr_noop("has no back. Name one in the list, or give --back")},
      {neither_art_nor_list,
       tr_noop("is neither a picture or PDF by its name (.jpg, .png, .tif, .pdf) nor a list of "
               "cards (CSV in UTF-8, as a spreadsheet program saves it)")},
      {list_is_empty, tr_noop("lists no cards")},
      {not_a_thickness, tr_noop("\"{text}\" is not a thickness, such as 220um, 0.22mm or 9mil, or "
                                "a weight such as 200gsm")},
      {edge_colour_unreadable,
       tr_noop("is not an image whose edge colour can be read, so a plain edge cannot be "
               "continued. Save it as RGB PNG, JPEG or TIFF")},
      {guides_incomplete,
       tr_noop("Use fewer cards, or cut the edges without guides by the fence: some edges have "
               "less than 2 mm of waste, so some cut guides are missing.")},
      {no_slug, tr_noop("Number the sheets in pencil: the waste has no room for the line that "
                        "names job, sheet and side.")},
      {preview_not_possible,
       tr_noop("Print one sheet and cut it: cards from a PDF or in CMYK cannot be previewed.")},
      {backs_do_not_match,
       {"fronts",
        trn_noop(
            "has {backs} backs for {fronts} front. Give one back for all, or one for each front",
            "has {backs} backs for {fronts} fronts. Give one back for all, or one for each "
            "front")}},
      {unknown_column,
       tr_noop("line {line}: unknown column \"{column}\". The first line of a list of cards names "
               "its columns: front, and optionally card, quantity, back and note")},
      {column_twice, tr_noop("line {line}: names the column {column} twice")},
      {no_column_front, tr_noop("line {line}: has no column front")},
      {too_many_fields, tr_noop("line {line}: has {fields} fields, the first line names {columns} "
                                "(put a field that contains the separator in double quotes)")},
      {not_a_quantity,
       tr_noop("line {line}: quantity is \"{quantity}\", must be a whole number from 0 to {most}")},
      {line_without_front, tr_noop("line {line}: names no front")},
      {too_many_cards, tr_noop("line {line}: makes more than {most} cards in all. Split the list")},
      {listed_file_missing,
       tr_noop("line {line}: {column} \"{name}\" does not exist (looked for {looked_for})")},
      {too_many_sheets_for_marks,
       tr_noop("More than {most_sheets} sheets: they are printed without registration marks.")},
      {fitting_needs_profile, tr_noop("needs --profile: it states how a back follows its front")},
      {no_fronts, tr_noop("Scan the fronts again: the file has none, so nothing can be fitted")},
      {fronts_of_another_layout,
       tr_noop("Use the options with which the fronts were made: they are on {paper}, turned on "
               "the {turn:word}, and this job is laid out differently")},
      {fronts_of_several_runs, tr_noop("Measure the fronts of one job at a time: these are from "
                                       "several jobs, whose codes are {runs}")},
      {front_beyond_deck,
       tr_noop(
           "There is a front of sheet {sheet}, but this job has {sheets} sheets: the fronts are "
           "of another deck, or the options have changed")},
      {fronts_laid_out_differently,
       tr_noop("Use the profile and the options with which the fronts were made: the front of "
               "sheet {sheet} was laid out with others")},
      {fitting_does_not_pay,
       tr_noop("Leave out --fitted-to: fitting would not help. Fitted backs would need {fitted_mm} "
               "of oversize, ordinary ones {ordinary_mm}")},
      {sheets_not_fitted,
       tr_noop("These sheets get the ordinary correction and oversize, because their front was not "
               "read: {sheets}")},
      {no_room_for_marks,
       tr_noop(
           "The waste is too narrow for registration marks: they need 6.2 mm at two opposite "
           "edges, inside the margins. The cards are not affected, but scans of these sheets will "
           "not show how far the printer was off. Fewer cards on a sheet (--grid), a smaller "
           "--gutter or larger paper make room; --no-marks turns off the marks and this remark.")},
      {low_resolution,
       tr_noop("Fewer than {wanted_ppi:~0} pixels per inch when printed: {coarse} of {images} "
               "{side:word} images; the coarsest, {coarsest}, has {lowest_ppi:~0}. Cards may look "
               "soft: export pictures at {width_px} x {height_px} px, or give --ppi "
               "{accepted_ppi:~0} if that is fine.")},
      {wrong_aspect,
       {"fit", "fill"},
       tr_noop("Not the shape of the card: {misshapen} of {images} {side:word} images; the worst, "
               "{worst}, is {off_share:1} too {way:word} for {width_mm:~2} x {height_mm:~2} "
               "({width_px} x {height_px} px at {wanted_ppi:~0} ppi). They fill the card and lose "
               "the excess on both sides; --fit fit shows all of them.")},
      {wrong_aspect,
       {"fit", "fit"},
       tr_noop("Not the shape of the card: {misshapen} of {images} {side:word} images; the worst, "
               "{worst}, is {off_share:1} too {way:word} for {width_mm:~2} x {height_mm:~2} "
               "({width_px} x {height_px} px at {wanted_ppi:~0} ppi). They are shown whole; the "
               "rest of the card stays empty, or takes the colour of a back's plain edge.")},
      {wrong_aspect,
       tr_noop("Not the shape of the card: {misshapen} of {images} {side:word} images; the worst, "
               "{worst}, is {off_share:1} too {way:word} for {width_mm:~2} x {height_mm:~2} "
               "({width_px} x {height_px} px at {wanted_ppi:~0} ppi). They keep their size and are "
               "cut to the card.")},
      {like_bleed,
       {"side", "front"},
       tr_noop("{like_bleed} of {images} fronts are larger than the card by the same amount on "
               "every side, as with a bleed; the largest, {largest}, by {beyond_px:~1} px at "
               "{wanted_ppi:~0} ppi. They are scaled down to fit the card. If it is a bleed, add "
               "--front-bleed {beyond_px:~1}px.")},
      {like_bleed,
       tr_noop("{like_bleed} of {images} backs are larger than the card by the same amount on "
               "every side, as with a bleed or enlarged by hand; the largest, {largest}, by "
               "{beyond_px:~1} px at {wanted_ppi:~0} ppi. They are scaled down to fit the card. If "
               "they are drawn to reach beyond it, add --back-bleed {beyond_px:~1}px.")},
      {white_edge,
       {"which", "all"},
       tr_noop(
           "The backs have a white edge, so enlarging them would hide nothing: a back that is off "
           "shows as a border of uneven width, never as a sliver. They are printed at their "
           "original size. versolay advise --border reports how even the borders will be.")},
      {white_edge,
       tr_noop(
           "Some backs have a white edge, so enlarging them would hide nothing: a back that is off "
           "shows as a border of uneven width, never as a sliver. They are printed at their "
           "original size. versolay advise --border reports how even the borders will be.")},
      {inner_edges,
       {"where", "gutter"},
       tr_noop("Where cards have a gutter between them, the backs end in the middle of it: a sheet "
               "that is off shows the neighbour's back there, and the oversize of {oversize_mm} "
               "helps at the outer edges only. A gutter of {gutter_needed_mm:~1} (--gutter), or a "
               "back with one plain edge colour, helps at all edges.")},
      {inner_edges,
       tr_noop("Where cards touch, the backs end at the common cut: a sheet that is off shows the "
               "neighbour's back there, and the oversize of {oversize_mm} helps at the outer edges "
               "only. A gutter of {gutter_needed_mm:~1} (--gutter), or a back with one plain edge "
               "colour, helps at all edges.")},
      {inner_edges_share,
       {"where", "gutter"},
       tr_noop(
           "Where cards have a gutter between them, the backs end in the middle of it, and a "
           "sheet that is off shows the neighbour's back there: {good_share:~0} of the cards "
           "should be clean, at least {sure_share:~0} ({confidence_share:~0} sure). A gutter of "
           "{gutter_needed_mm:~1} (--gutter), or a back with one plain edge colour, keeps the "
           "promise at all edges.")},
      {inner_edges_share,
       tr_noop("Where cards touch, the backs end at the common cut, and a sheet that is off shows "
               "the neighbour's back there: {good_share:~0} of the cards should be clean, at least "
               "{sure_share:~0} ({confidence_share:~0} sure). A gutter of {gutter_needed_mm:~1} "
               "(--gutter), or a back with one plain edge colour, keeps the promise at all "
               "edges.")},
      {art_ends_early,
       tr_noop("Extend the artwork of page {page} beyond its cards: at one edge it ends {reach_mm} "
               "beyond the cut, and must reach {wanted_mm}. Otherwise slivers will show there.")},
      {narrow_edge, tr_noop("Make the border of {back} at least {band_needed_mm:~1} wide, or use a "
                            "gutter of {gutter_needed_mm:~1} (--gutter): its plain edge is "
                            "{band_mm} deep, less than the oversize of {oversize_mm}, so a sheet "
                            "that is farther off shows the picture of the card beside it.")},
      {bleed_costs_cards,
       tr_noop("The bleed of the fronts ({bleed_mm} on every side) costs room: without it "
               "{without} cards would fit on a sheet instead of {cards}.")},
      {laminated_scale_impossible,
       tr_noop("a finished sheet cannot be {scale:~3} times as large as it was printed: at most 3 "
               "% is possible. Give measured/printed, such as 263.6/264")},
      {ticks_out_of_range, tr_noop("is {ticks_mm:~3}, must be 0.1 or 0.25 mm")},
      {preview_needs_profile, tr_noop("needs --profile: it shows how far backs will be off")},
      {no_profile, tr_noop("No profile was given: the backs are printed where they are drawn. Scan "
                           "both sides of these sheets before you cut them, with black beyond all "
                           "four edges, to correct the next deck (versolay measure, versolay "
                           "profile); or print test sheets first (versolay target).")},
  };
  return sentences;
}

}  // namespace versolay::words
