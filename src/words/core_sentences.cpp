#include "core/findings.h"
#include "words/sentences.h"

namespace versolay::words {

using namespace findings;

const std::vector<Sentence>& core_sentences() {
  static const std::vector<Sentence> sentences = {
      {quotation_open, tr_noop("line {line}: unterminated quotation mark")},
      {not_a_table, tr_noop("cannot be read as a table ({complaint}). It may be damaged")},
      {not_utf8_table,
       tr_noop(
           "is not UTF-8 text. Save it from the spreadsheet program as CSV, character set UTF-8")},
      {designs_missing, tr_noop("the target designs were not found. Install versolay again, or set "
                                "VERSOLAY_DATA to the folder that holds calib_targets")},
      {font_missing,
       tr_noop("the font was not found in {folders}. Install the DejaVu fonts (Debian: "
               "fonts-dejavu-core), or set VERSOLAY_FONT_DIR to the folder that has them")},
      {cannot_write, tr_noop("cannot write: {reason}")},
      {is_a_folder, tr_noop("is a folder; name a file")},
      {is_a_pipe,
       tr_noop("is a pipe or a device, not a file. Save its output to a file, and name that")},
      {cannot_open, tr_noop("cannot be opened: {reason}")},
      {does_not_exist, tr_noop("does not exist")},
      {cannot_read, tr_noop("cannot be read")},
      {cannot_make_folder, tr_noop("cannot be made: {reason}")},
      {folder_missing, tr_noop("its folder does not exist. Create it first")},
      {output_is_a_folder, tr_noop("is a folder; name a file to write")},
      {output_is_a_link, tr_noop("is a link. Name the file that it points to, or another one")},
      {output_is_a_pipe, tr_noop("is a pipe or a device, not a file. Name a file to write")},
      {output_exists, tr_noop("exists already. Use --force to replace it, or another name")},
      {output_is_an_input, tr_noop("is also the input. Write to another file")},
      {same_output, tr_noop("is the same file as {other}. Name two files")},
      {not_an_object, tr_noop("must be an object")},
      {key_missing, tr_noop("has no \"{key}\"")},
      {not_an_array, tr_noop("must be an array")},
      {not_a_text, tr_noop("must be a string")},
      {not_a_flag, tr_noop("must be true or false")},
      {not_a_whole_number, tr_noop("must be a whole number")},
      {not_a_number, tr_noop("must be a number")},
      {not_finite, tr_noop("must be a finite number")},
      {length_out_of_range,
       tr_noop("is {value_mm:~4}, must be from {least_mm:~4} to {most_mm:~4}")},
      {out_of_range, tr_noop("is {value:~6}, must be from {least:~6} to {most:~6}")},
      {not_above, tr_noop("is {value:~6}, must be more than {above:~6} and at most {most:~6}")},
      {nested_too_deeply, tr_noop("is nested too deeply to be a Versolay file")},
      {key_twice, tr_noop("the key \"{key}\" occurs twice in one object")},
      {rotation_unknown,
       tr_noop("Fill in the rotation column for a smaller oversize: no rotation was given, so it "
               "counts as not measured, and the oversize allows for it.")},
      {picture_instead_of_json,
       tr_noop(
           "is a picture. Give scans to versolay measure first, and the file that it writes here")},
      {pdf_instead_of_json,
       tr_noop("is a PDF. Give scans to versolay measure first, and the file that it writes here")},
      {not_json,
       tr_noop("is not valid JSON (byte {byte}). It may be damaged or not a Versolay file")},
      {number_too_large, tr_noop("contains a number that is too large: {number}. It may be damaged "
                                 "or not a Versolay file")},
      {no_schema_version, tr_noop("has no version number")},
      {newer_schema, tr_noop("is \"{schema}\", written by a newer versolay. Update versolay")},
      {wrong_rows, tr_noop("must have {rows} rows")},
      {wrong_columns, tr_noop("must have {columns} numbers")},
      {not_a_paper, tr_noop("\"{text}\" is not a paper size. Use a4, a3, letter, tabloid, or a "
                            "size such as 200x280mm (width x height, 100 to 600 mm each)")},
      {variance_negative, tr_noop("is not a covariance: the variance of {component} is negative")},
      {variance_out_of_range, tr_noop("is not a covariance: the variance of {component} is "
                                      "{variance:~6}; it must be from 0 to {most:~6}")},
      {covariance_of_a_constant, tr_noop("is not a covariance: row {row} column {column} is not 0 "
                                         "although one of the two never varies")},
      {covariance_not_symmetric, tr_noop("is not a covariance: it is not symmetric")},
      {covariance_not_positive,
       tr_noop("is not a covariance: a combination of the components has a negative variance")},
      {not_a_turn, tr_noop("must be \"long-edge\" or \"short-edge\"")},
      {profile_needed,
       {"found", ""},
       tr_noop("is not a Versolay file. A profile ({needed}) is needed: versolay profile makes one "
               "from readings")},
      {profile_needed,
       {"holds", "readings"},
       tr_noop("holds readings. A profile is needed: versolay profile, given these readings, makes "
               "it")},
      {profile_needed, tr_noop("is \"{found}\". A profile ({needed}) is needed: versolay profile "
                               "makes one from readings")},
      {readings_needed,
       {"found", ""},
       tr_noop("is not a Versolay file. Readings ({needed}) are needed: versolay measure makes "
               "them from scans")},
      {readings_needed,
       {"holds", "profile"},
       tr_noop("holds a printer profile. Readings are needed: versolay measure makes them from "
               "scans")},
      {readings_needed, tr_noop("is \"{found}\". Readings ({needed}) are needed: versolay measure "
                                "makes them from scans")},
      {geometry_needed,
       {"found", ""},
       tr_noop("is not a Versolay file. A target geometry ({needed}) is needed: versolay target "
               "--geometry writes one")},
      {geometry_needed, tr_noop("is \"{found}\". A target geometry ({needed}) is needed: versolay "
                                "target --geometry writes one")},
      {other_file_needed,
       {"found", ""},
       tr_noop("is not a Versolay file. A file of the kind \"{needed}\" is needed")},
      {other_file_needed, tr_noop("is \"{found}\". A file of the kind \"{needed}\" is needed")},
      {not_a_size, tr_noop("must be [width, height]")},
      {not_three_components, tr_noop("must be three: dx_mm, dy_mm and rotation_mrad")},
      {not_a_model, tr_noop("must be rigid, similarity or affine")},
  };
  return sentences;
}

}  // namespace versolay::words
