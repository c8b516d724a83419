#include "words/findings.h"
#include "words/sentences.h"

namespace versolay::words {

using namespace findings;

const std::vector<Sentence>& command_sentences() {
  static const std::vector<Sentence> sentences = {
      {number_expected, tr_noop("must be a number, such as 2.5")},
      {share_expected, tr_noop("must be a share, such as .95 or 95%")},
      {value_expected, tr_noop("needs a value")},
      {file_name_expected, tr_noop("needs the name of a file")},
      {pair_expected, tr_noop("must be two numbers separated by x, as in 63x88")},
      {whole_number_expected, tr_noop("must be a whole number")},
      {count_expected, tr_noop("must be a whole number, 0 or more")},
      {sheet_expected, tr_noop("must be the number of a sheet, as in 3 or may.json:3")},
      {sheets_expected, tr_noop("must be numbers of sheets, as in 2,4,6")},
      {pages_expected, tr_noop("must be page numbers, such as 2,4,6")},
      {grid_expected, tr_noop("must be auto or two whole numbers, columns x rows, as in 3x3")},
      {margins_expected, tr_noop("must be one number, or four: left,top,right,bottom")},
      {ratio_expected, tr_noop("must be measured/printed in mm, such as 263.6/264")},
      {card_expected, tr_noop("must be width x height, such as 63x88 (mm) or 744x1039px, or a "
                              "name: {formats}")},
      {choice_expected, tr_noop("must be {choices:or}")},
      {looks_like_pixels, tr_noop("that looks like pixels: {typed} px at {ppi:~0} ppi is "
                                  "{in_millimetres} mm. Write {to_write}px")},

      {unknown_word_resembles, tr_noop("{word} is not known: did you mean {known_word}?")},
      {unknown_words, tr_noop("Not expected: {words}")},
      {option_missing, tr_noop("Missing: {option} ({option_meaning})")},
      {command_line_wrong, tr_noop("{complaint}")},
      {unknown_command_resembles, tr_noop("is not a command: did you mean {known_command}?")},
      {unknown_command, tr_noop("is not a command")},
      {unknown_shell, tr_noop("is not a supported shell: use bash, zsh or fish")},

      {not_with_option, tr_noop("cannot be used with {other_option}. Leave it out")},
      {needs_option, tr_noop("needs {other_option} as well")},
      {two_rehearsals, tr_noop("cannot be used with --target. Rehearse one of them at a time")},
      {own_pdf_states_it,
       tr_noop("cannot be used with a PDF of your own, which states it already. Leave it out")},
      {profile_is_for_jobs,
       tr_noop("is for --job. To simulate the printer of a profile, use --printer-like")},
      {guides_need_a_card,
       tr_noop("draws the places of cards: give their size, as in --card 63x88")},
      {nothing_to_correct, tr_noop("needs the pages to correct (IN.pdf, or FRONT.png BACK.png) and "
                                   "--out; or --guides for a layer to draw on")},
      {backs_of_pictures,
       tr_noop("is for the pages of a PDF; of two pictures the second is the back")},
      {too_many_inputs, tr_noop("names more than two files. Give IN.pdf or FRONT.png,BACK.png")},
      {reason_missing,
       tr_noop("needs one --why for each sheet: a sheet is never left out silently")},
      {reason_empty, tr_noop("must give a reason")},
      {no_table_named, tr_noop("name the table that was filled in, or make one with --template")},
      {second_pdf, tr_noop("is a second PDF: give --out the name of a web page (.html)")},
      {pages_of_a_pass_are_the_same,
       tr_noop("cannot be used with --passes: the pages of a pass are the same for all sheets")},
      {proof_is_fed_once, tr_noop("cannot be used with --passes: proof sheets are fed once")},
      {no_experiment,
       tr_noop("is for the run card of an experiment: name the set-ups with --compare")},

      {printer_not_named, tr_noop("needs a name that distinguishes it from other profiles")},
      {not_a_run_code, tr_noop("must be 4 capital letters or digits, without 0, 1, I and O")},
      {label_too_long, tr_noop("is too long for its line. Shorten it to about 50 characters")},
      {not_one_of_the_sheets, tr_noop("sheet {sheet} is not one of the {sheets} sheets")},
      {not_so_many_sheets, tr_noop("must be from 1 to {most_sheets}: {file} has no more sheets")},
      {no_scans_named, tr_noop("name the scans to read")},
      {back_image_missing,
       tr_noop("is an image of one side. Give the back as well: FRONT.png,BACK.png")},
      {pdf_stays_a_pdf, tr_noop("must end in .pdf, as the input is a PDF")},
      {not_a_corrected_kind,
       tr_noop("must end in .pdf (front and back, nothing resampled), or in .png or .tif (the "
               "moved back; a JPEG would lose quality again)")},

      {folder_not_empty,
       tr_noop("is not empty. Name a new folder, or use --force to replace the rehearsal in it")},
      {neither_profile_nor_readings,
       tr_noop("is neither a printer profile (versolay profile) nor readings (versolay measure)")},
      {other_target_geometry, tr_noop("are not where this version puts them; print a new target")},
      {not_remembered, tr_noop("is not remembered")},
      {no_job_setting, tr_noop("is not a setting that a job remembers")},
      {no_file_opened, tr_noop("none of these files can be read\n{rejected:lines}")},
      {no_sheet_in_table, tr_noop("No sheet can be read from {table}.\n{rejected:lines}")},
      {table_not_filled_in, tr_noop("Fill in {table} first: no sheet can be read from it.")},
      {no_sheet_read, tr_noop("No sheet could be read.\n{rejected:lines}")},
      {no_front_read, tr_noop("No front could be read.\n{rejected:lines}")},
      {no_job, tr_noop("This folder has no job yet. Name the settings to remember, for example: "
                       "versolay job --paper a4 --turn long-edge --card 63x88")},
      {no_profiles, tr_noop("There is no printer profile here. Name the folder that has them, or "
                            "make one with versolay profile.")},
      {spread_of_one_sheet,
       tr_noop("{profile} has no spread: it was made from one sheet. Plan without it, or estimate "
               "the spread with --sd")},
      {printer_like_has_no_spread,
       tr_noop("does not state how much the sheets of this printer vary: it was made from one. "
               "Give a profile made from 3 sheets or more")},

      {image_size,
       tr_noop("{file} is {width_px} x {height_px} px; the whole page of {paper_width_mm:~1} x "
               "{paper_height_mm:~1} at {ppi:~1} ppi would be {page_width_px} x {page_height_px} "
               "px. Give the whole page, upright, and its true resolution (--ppi).")},
      {image_shape,
       tr_noop("{file} is {width_px} x {height_px} px; an image of the whole page of "
               "{paper_width_mm:~1} x {paper_height_mm:~1} would be {page_width_px_at_300} x "
               "{page_height_px_at_300} px at 300 ppi, or the same proportions at another "
               "resolution. Give the whole page, upright, or lay out single cards with versolay "
               "impose.")},
      {constant_part_moved, tr_noop("Use the updated profile for the next job: backs corrected by "
                                    "the old one are off by what has changed")},
      {spread_changed, tr_noop("Measure 10 target sheets of the printer as it is now: the promises "
                               "of the old profile no longer hold")},
      {places_differ,
       tr_noop("This printer shifts some places of the page more than others, by about "
               "{amplitude_mm:2}. Moving a whole page cannot correct that; versolay impose moves "
               "each back separately.")},
      {turns_differ, tr_noop("{set_up} was turned on a different edge from {other_set_up}: the "
                             "same feed error has a different sign there")},

      {not_ours,
       {"wanted", "target"},
       tr_noop("No marks of a target were found on the first page of {file}. Give the PDF that "
               "versolay target wrote.")},
      {not_ours, tr_noop("No marks were found in the waste of the first page of {file}. Give the "
                         "PDF that versolay impose wrote, without --no-marks: it is read by these "
                         "marks.")},
      {not_this_kind,
       {"wanted", "target"},
       tr_noop("{file} is a job of cards. Rehearse it with --job.")},
      {not_this_kind, tr_noop("{file} is a target. Rehearse it with --target.")},
      {begins_with_a_back, tr_noop("{file} begins with a back. Its fronts are needed as well: a "
                                   "rehearsal prints both sides.")},
      {pages_out_of_order, tr_noop("Page {page} of {file} is out of place: the order is front, "
                                   "back, front, back. Give the PDF as Versolay wrote it.")},
      {pages_moved,
       {"wanted", "target"},
       tr_noop("Give the PDF as Versolay wrote it: the contents of page {page} of {file} have been "
               "moved by {moved_mm:2}. If versolay correct wrote it, rehearse the target that it "
               "was made from.")},
      {pages_moved, tr_noop("Give the PDF as Versolay wrote it: the contents of page {page} of "
                            "{file} have been moved by {moved_mm:2}.")},

      {not_in_a_browser, tr_noop("works on the command line only, not in the browser")},
      {cannot_be_reached, tr_noop("cannot be reached: {reason}")},
      {no_memory, tr_noop("not enough memory for this input")},
      {internal_error,
       tr_noop("internal error: {fault}. Please report it, with the files and the command")},
  };
  return sentences;
}

}  // namespace versolay::words
