#include "pdf/findings.h"
#include "words/sentences.h"

namespace versolay::words {

using namespace findings;

const std::vector<Sentence>& pdf_sentences() {
  static const std::vector<Sentence> sentences = {
      {protected_pdf, tr_noop("{file} is protected against changes. Ask whoever made it for a copy "
                              "without protection.")},
      {already_corrected,
       tr_noop("The backs of {file} are moved already, by "
               "{moved_right_mm:across} and {moved_down_mm:along}: moved again, they would be "
               "off by that much. Correct the file that it was made from.")},
      {protection_dropped, tr_noop("{file} was encrypted; the output is not.")},
      {too_many_pages,
       tr_noop("{file} has {pages} pages; at most {most_pages} are corrected. Split it.")},
      {form_fields_drawn,
       tr_noop("Form fields of {file} had no stored appearance and were redrawn: letters beyond "
               "plain Latin may be missing, and sizes may differ. Compare the output with it, or "
               "flatten the form before you save the PDF.")},
      {screen_annotations_left_out, tr_noop("Comments or buttons of {file} that appear only on a "
                                            "screen are left out, on the other pages too.")},
      {annotation_lost, tr_noop("{file} has comments or form fields without a printed appearance; "
                                "they may be missing. Compare the output with it.")},
      {damaged_input,
       tr_noop("{file} had errors that were repaired. Check the output before printing.")},
      {pdf_does_not_open, tr_noop("the PDF that was made cannot be opened again, so it was not "
                                  "kept. Please report this, with the files and the command")},
      {printed_text_not_utf8, tr_noop("The text to print is not UTF-8 at byte {byte}. Type it "
                                      "again, or save its file as UTF-8")},
      {too_many_annotations,
       tr_noop("has {annotations} comments and form fields; at most {most} are drawn. Flatten them "
               "before you save the PDF, or remove them")},
      {too_much_drawn, tr_noop("draws more than 128 MB of lines and letters, which no printer "
                               "takes. Export its pages as pictures (PNG or JPEG)")},
      {protected_art,
       tr_noop("is protected against changes. Ask whoever made it for a copy without")},
      {too_many_art_pages, tr_noop("has {pages} pages; at most {most_pages} are read. Split it")},
      {art_page_without_size, tr_noop("has no size: nothing of it can be seen. Export it again")},
      {no_pages, tr_noop("has no pages")},
      {pdf_not_finished, tr_noop("could not be finished: {reason}")},
      {pdf_page_not_written,
       tr_noop("a page of the PDF cannot be written ({step}: libharu error {error}, detail "
               "{detail}). Please report it, with the files and the command")},
      {pdf_locked, tr_noop("is locked with a password. Save a copy without one")},
      {not_a_pdf, tr_noop("is not a PDF. Export it as PDF, or give pictures (PNG, JPEG, TIFF)")},
      {unpacks_too_large, tr_noop("its objects unpack to more than {megabytes} MB. Export it "
                                  "again, or print it to a new PDF")},
      {page_of_other_size,
       {"turned", "across"},
       tr_noop("Page {page} of {file} is {width_mm:~1} x {height_mm:~1}, the profile was measured "
               "on {profile_width_mm:~1} x {profile_height_mm:~1}. The page lies across the paper "
               "of the profile: rotate the pages by 90 degrees before you save the PDF, or measure "
               "a profile on pages of this orientation.")},
      {page_of_other_size,
       tr_noop("Page {page} of {file} is {width_mm:~1} x {height_mm:~1}, the profile was measured "
               "on {profile_width_mm:~1} x {profile_height_mm:~1}. Save the PDF at the size of the "
               "paper, or use a profile of this paper size.")},
      {odd_pages,
       {"pages",
        trn_noop(
            "{file} has {pages} page. It must contain front, back, front, back, ...; add an empty "
            "page where a back is missing, or say which pages are backs (--backs 2,4).",
            "{file} has {pages} pages. It must contain front, back, front, back, ...; add an empty "
            "page where a back is missing, or say which pages are backs (--backs 2,4).")}},
      {no_such_page,
       {"pages", trn_noop("{file} has {pages} page; there is no page {page}.",
                          "{file} has {pages} pages; there is no page {page}.")}},
      {pdf_damaged, tr_noop("is damaged or truncated ({detail}). Export or copy it again")},
      {pdf_encryption_unknown,
       tr_noop("is encrypted in a way that cannot be read. Save a copy without protection")},
      {pdf_number_too_large, tr_noop("is damaged or truncated (one of its numbers is too large to "
                                     "make sense). Export or copy it again")},
      {pdf_index_damaged, tr_noop("is damaged or truncated (its cross-reference table is missing "
                                  "or wrong). Export or copy it again")},
      {page_without_size,
       tr_noop("Page {page} of {file} has no size: nothing of it can be seen. Export it again.")},
  };
  return sentences;
}

}  // namespace versolay::words
