#include "registration/findings.h"
#include "words/sentences.h"

namespace versolay::words {

using namespace findings;

const std::vector<Sentence>& registration_sentences() {
  static const std::vector<Sentence> sentences = {
      {copy, tr_noop("This is the same picture as {original}. It counts once.")},
      {given_twice, tr_noop("This scan was given twice. It counts once.")},
      {other_target, tr_noop("This page is of another target ({paper} paper, {turn} turn) than "
                             "most of the scans. Measure each target separately.")},
      {sheet_fault, tr_noop("Comparing its two sides failed ({fault}). Scan both sides again.")},
      {other_side_missing, tr_noop("Only the {side:word} of this sheet was scanned. Scan its "
                                   "{missing:word} as well.")},
      {same_side_twice,
       tr_noop("The {side:word} page is printed on both sides of this sheet ({scan} and "
               "{other_scan}). Print the first page of the PDF on the front and the second on the "
               "back.")},
      {wrong_back,
       tr_noop("Its front is on the same piece of paper as the back of sheet {back_of_sheet}. The "
               "backs were fed in another order than the fronts; often the stack is just upside "
               "down. Print fresh sheets and keep them in order.")},
      {half_missing,
       tr_noop("The {where:word} {amount:word} of the {side:word} is not in the pictures. Scan it "
               "as well; a sheet that is larger than the scanner's glass is scanned in two halves "
               "that overlap a little in the middle.")},
      {two_sheets_of_one_number,
       tr_noop("Two pictures of the {side:word} do not show the same sheet ({scans}): the holes or "
               "edges are {off_mm} apart. Two sheets carry the same number; print each sheet of a "
               "target once.")},
      {not_same_sheet, tr_noop("These two pictures do not seem to be the same sheet, or one side "
                               "was printed upside down.")},
      {scanner_stretches,
       tr_noop("Scan each side both ways round, so that scanner error averages out: this scanner "
               "stretches the picture by {off_mm} (two scans of the {side:word}, rotated by 180 "
               "degrees in between, differ by that much: {scans}).")},
      {repeat_differs, tr_noop("Two scans of the same side differ by {off_mm:3} ({side:word}, "
                               "{scans}). Press the sheet flat and rescan.")},
      {printed_scale,
       {"cause", "enlarged"},
       tr_noop("The {side:word} was printed at {width_share:1} of its width and {height_share:1} "
               "of its height. Borderless printing and \"fill the page\" enlarge a page: turn them "
               "off in the print dialogue, and print at actual size (100 %).")},
      {printed_scale,
       {"cause", "shrunk"},
       tr_noop("The {side:word} was printed at {width_share:1} of its width and {height_share:1} "
               "of its height. \"Fit to page\" shrinks a page: turn it off in the print dialogue, "
               "and print at actual size (100 %).")},
      {printed_scale,
       tr_noop(
           "The {side:word} was printed at {width_share:1} of its width and {height_share:1} "
           "of its height. Turn off fit-to-page and borderless in the print dialogue, and print "
           "at actual size (100 %).")},
      {printed_scale_unknown,
       tr_noop("The size of the print could not be checked: the files state no resolution, or a "
               "wrong one, and not all edges of the paper are visible. Make sure that fit-to-page "
               "and borderless were off.")},
      {fed_round_not_read,
       tr_noop("Sheet {sheet_named} is named in --fed-round, but was not read.")},

      {edge_contrast,
       tr_noop("Put black card behind the sheet, reaching well beyond all its edges: the edges of "
               "the paper cannot be distinguished from the background.")},
      {edges_cut_off,
       tr_noop(
           "The {edges:word} edge of the paper is cut off in the picture of the {side:word}: "
           "the sheet is as long as the scanner's glass. Scan the side twice, shifted by 15 mm, "
           "so that every edge is seen with some black card beyond it; or punch holes.")},
      {edges_not_shown,
       tr_noop("The edges of the paper are not all in the pictures. Scan each side twice, shifted "
               "by 15 mm, so that every edge is seen with some black card beyond it; or punch "
               "holes.")},
      {hole_contrast, tr_noop("The holes are too pale to be read. Put black card behind the sheet: "
                              "the white lid hides the edge of a hole.")},
      {holes_cut_off,
       tr_noop("The places of the holes are not in the pictures. Scan the whole sheet; one that is "
               "larger than the scanner's glass, or as long, in two pictures that overlap.")},
      {holes_outside,
       tr_noop("The holes lie across the dashed circles, not inside them. Print a fresh sheet and "
               "centre the punch on the small arrow in the middle of the edge.")},
      {holes_unreadable,
       tr_noop("The holes cannot be read: they are torn, covered or of an unusual size. Use an "
               "ordinary 6 mm office punch on a fresh sheet, and scan with black card behind.")},
      {white_background,
       tr_noop("Put black card behind the sheet, reaching beyond all its edges, and scan again: "
               "the background is as light as the paper, so holes and edges cannot be seen.")},
      {no_holes,
       tr_noop("No holes were found. Punch the sheet once on each short edge, inside the dashed "
               "circles, and scan both sides with black card behind.")},
      {too_few_features,
       {"datum", "edges"},
       tr_noop("Too little of the paper's edges can be read on both sides. Scan so that all four "
               "edges are seen with black card beyond them.")},
      {too_few_features,
       tr_noop("Too few holes can be read on both sides; two far apart are needed and four are "
               "better. Check the punch and scan again with black card behind.")},

      {hole_off, tr_noop("Hole {hole} disagrees with the others by {off_mm:3}. It may be torn; "
                         "check it, or scan both sides again.")},
      {hole_left_out,
       tr_noop("Hole {hole} was left out: it disagrees with the others by {off_mm:3}.")},
      {hole_on_one_side,
       tr_noop("Hole {hole} is seen on the {seen:word} and not on {blind_scan}, and is not used. "
               "Clear it, lay black card behind the sheet, and scan that side again.")},
      {hole_unreadable,
       {"reason", "poor_contrast"},
       tr_noop("Hole {hole} could not be read on {scan}: it is too pale. Put black card behind the "
               "sheet.")},
      {hole_unreadable,
       {"reason", "uneven_light"},
       tr_noop("Hole {hole} could not be read on {scan}: there is light and shadow inside it. Put "
               "black card behind the sheet.")},
      {hole_unreadable,
       {"reason", "cut_off"},
       tr_noop("Hole {hole} could not be read on {scan}: something dark reaches the dashed circle, "
               "dirt or a hole across it.")},
      {hole_unreadable,
       {"reason", "wrong_size"},
       tr_noop("Hole {hole} could not be read on {scan}: it is of an unusual size.")},
      {hole_unreadable,
       {"reason", "marks_smeared"},
       tr_noop("Hole {hole} could not be read on {scan}: the rings around it are smeared, or the "
               "paper is not flat.")},
      {hole_unreadable,
       {"reason", "none_made"},
       tr_noop("Hole {hole} could not be read on {scan}: there is no hole.")},
      {hole_unreadable,
       tr_noop("Hole {hole} could not be read on {scan}: it is torn, covered or not round.")},
      {hole_shapes_differ,
       tr_noop("Hole {hole} does not look the same from both sides: they differ by {differ_mm}. It "
               "may be torn, half covered or in shadow on one of them. Clear it, and scan both "
               "sides again.")},
      {holes_disagree,
       tr_noop("The holes disagree with each other by {rms_mm:3}. A hole may be torn, or the sheet "
               "moved during the scan. Press it flat and scan again.")},
      {wrong_turn,
       tr_noop(
           "This sheet was turned on the wrong edge: the target was made for a {turn} turn. Print "
           "it again and turn it as the target says, or make a target with --turn {other_turn}.")},
      {edges_too_far_apart,
       tr_noop("The {edge:word} edge, seen from the back, is rough, folded or in shadow: the two "
               "sides disagree there by {rms_mm}. Or the scans are of two different sheets.")},
      {edges_disagree,
       tr_noop("The {edge:word} edge, seen from the back, is rough, folded or in shadow: the two "
               "sides disagree there by {rms_mm:3}.")},
      {edge_places_left_out,
       {"places",
        trn_noop("{places} place along the edges that is off by up to {most_mm} was left out: an "
                 "edge is nicked, curled or in shadow on one side. Press the sheet flat, lay black "
                 "card behind it, and scan both sides again.",
                 "{places} places along the edges that are off by up to {most_mm} were left out: "
                 "an edge is nicked, curled or in shadow on one side. Press the sheet flat, lay "
                 "black card behind it, and scan both sides again.")}},
      {edges_rough,
       tr_noop("The edges of the paper, seen from both sides, disagree by {rms_mm} and were left "
               "out. They may be rough, folded, covered or in shadow.")},
      {edges_of_another_size,
       tr_noop("The sheet looks larger from one side than from the other, so its edges were left "
               "out. It may not have lain flat on the glass.")},
      {paper_size_differs,
       tr_noop("The sheet looks {off_mm} {larger:word} from the back. An edge was not seen "
               "properly: press the sheet flat, lay black card behind it that reaches well beyond "
               "all edges, and scan again.")},
      {holes_against_edges,
       tr_noop(
           "The holes and the edges of the paper disagree by {off_mm}: either the sheet did not "
           "lie flat on the glass, or these two pictures are not of the same sheet. Press it "
           "flat and scan both sides again.")},
      {datums_disagree,
       tr_noop("The holes and the edges of the paper disagree by {across_mm:3} left-right, "
               "{down_mm:3} up-down and {rotation_mrad}, and nothing shows which is right. The "
               "holes are used, and the stated uncertainty covers both. Press the sheet flat and "
               "scan both sides again; leave the sheet out if that does not help.")},
      {offset_too_large,
       tr_noop(
           "The back is off by {offset_mm}, more than {limit_mm:0}. Check the page scaling, and "
           "that the sheet was turned the right way.")},
      {sheared,
       tr_noop("The back looks sheared by {shear_mrad} against the front, more than any printer "
               "does: an edge or a hole was seen wrongly on one side, or a scan is warped. Press "
               "the sheet flat and scan both sides again.")},
      {stretched,
       tr_noop("The back looks stretched by {stretch_share:2} against the front, more than any "
               "printer does: an edge or a hole was seen wrongly on one side, or a scan is warped. "
               "Press the sheet flat and scan both sides again.")},

      {no_edges_read, tr_noop("No edges were read.")},
      {no_holes_read, tr_noop("No holes were read.")},
      {datum_asked_for, tr_noop("As requested.")},
      {edges_not_followed,
       tr_noop("The edges of the paper disagree with the holes; the holes are used.")},
      {holes_and_edges_agree,
       tr_noop("Holes alone give +-{holes_95_mm:3}, edges alone +-{edges_95_mm:3}, together "
               "+-{together_95_mm:3} (95 %).")},
      {pin_leaned, tr_noop("The pin leaned by about {lean_mm}, which was averaged out.")},
      {read_on_nets,
       {"holes", trn_noop("{holes} hole read on the nets of lines.",
                          "{holes} holes read on the nets of lines.")}},
      {read_on_scales,
       {"scales",
        trn_noop("{scales} scale read against a light.", "{scales} scales read against a light.")}},
      {given_as_values, tr_noop("Values measured in another way.")},

      {misread, tr_noop("{place} seems to be misread by {slip_mm:1}. Read it again.")},
      {reading_off, tr_noop("{place} disagrees with the others by {off_mm}. Read it again.")},
      {misread_left_out, tr_noop("{place} seems to be misread by {slip_mm:1}. It was left out. "
                                 "Read it again and correct the table.")},
      {reading_left_out, tr_noop("{place} disagrees with the others by {off_mm}. It was left out. "
                                 "Read it again and correct the table.")},
      {readings_contradict,
       tr_noop("The readings of this sheet disagree with each other by {rms_mm}. Check that front "
               "and back are the same sheet, both with the arrow to the top, and read it again.")},
      {readings_disagree,
       tr_noop("The readings disagree with each other by {rms_mm}. A magnifying glass and good "
               "light help.")},
      {readings_unchecked, tr_noop("Read more places: there are just enough readings and none to "
                                   "spare, so a misread number cannot be detected.")},
      {too_few_readings,
       {"method", "holes"},
       tr_noop("Too few holes were read: two that lie far apart are needed, and four or more are "
               "better.")},
      {too_few_readings,
       tr_noop("Too few scales were read: three are needed, with both directions among them, and "
               "all eight are better.")},
      {sign_swapped,
       {"component", "dx_mm"},
       tr_noop("This sheet is the opposite of the others: were left and right swapped?")},
      {sign_swapped,
       {"component", "dy_mm"},
       tr_noop("This sheet is the opposite of the others: were up and down swapped?")},
      {sign_swapped,
       tr_noop("This sheet is the opposite of the others: were clockwise and anticlockwise "
               "swapped?")},
      {row_incomplete,
       {"place", ""},
       tr_noop("Row {row} (sheet {sheet_named}) was left out: some of its cells are empty.")},
      {row_incomplete,
       tr_noop("Row {row} (sheet {sheet_named}, {place}) was left out: some of its cells are "
               "empty.")},
      {no_titles, tr_noop("has no header line that begins with \"sheet\". Make a table with "
                          "versolay readings --template and fill that in")},
      {unknown_titles, tr_noop("row {row}: this is not the header of a table of readings. Keep the "
                               "rows of the template down to its header unchanged; separate cells "
                               "with commas, semicolons or tabs")},
      {table_setting_missing,
       tr_noop("does not state the {setting} of the target. Give it with --{setting}, or keep the "
               "line \"{setting}\" of the template")},
      {table_setting_unknown, tr_noop("{setting} {value}: is not known")},
      {table_setting_differs, tr_noop("is for {setting} {value}, but --{setting} says otherwise")},
      {back_of_other_sheet,
       tr_noop("Check the numbers in the waste of both sides: by the order of the scans, the back "
               "of this front is that of sheet {back}, so the stack was fed in another order, and "
               "a fitted back is on the wrong sheet")},
      {back_among_fronts,
       tr_noop("This is the back of a sheet. Give --fronts scans of fronts only")},
      {front_photographed,
       tr_noop(
           "This is a photograph. Scan the front: its edges must be read to a few hundredths of "
           "a millimetre")},
      {not_a_pass, tr_noop("must be 2 or more, each pass once, in order")},
      {not_two_numbers, tr_noop("must be two numbers")},
      {not_a_sheet_kind, tr_noop("must be target or production")},
      {correction_missing, tr_noop("a production sheet needs correction_applied")},
      {correction_unexpected, tr_noop("correction_applied belongs to production sheets only")},
      {not_a_sheet_number, tr_noop("must be 1 or more")},
      {row_too_long, tr_noop("row {row}: has more cells than the header. Where numbers have a "
                             "decimal comma, separate cells with semicolons")},
      {row_without_sheet, tr_noop("row {row}: must begin with the number of the sheet")},
      {row_place_unknown,
       tr_noop("row {row}: the target has no {kind:word} \"{place}\": they are {first} to {last}")},
      {row_twice, {"place", ""}, tr_noop("row {row}: sheet {sheet_named} is in the table twice")},
      {row_twice, tr_noop("row {row}: sheet {sheet_named}, {place} is in the table twice")},
      {cell_not_a_number, tr_noop("row {row}: {column}: \"{cell}\" is not a number")},
      {number_off_the_scale, tr_noop("row {row}: {column}: {number:~3} is not on this scale, whose "
                                     "numbers are {least:~1} to {most:~1}")},
      {number_of_another_column,
       tr_noop(
           "row {row}: {column}: {number:~3} is not on this scale, whose numbers are {least:~1} to "
           "{most:~1}. It is a number of \"{other_column}\": were two cells swapped?")},
  };
  return sentences;
}

}  // namespace versolay::words
