#include "rehearse/findings.h"
#include "words/sentences.h"

namespace versolay::words {

using namespace findings;

const std::vector<Sentence>& rehearse_sentences() {
  static const std::vector<Sentence> sentences = {
      {not_a_grey_picture, tr_noop("cannot be read as an 8-bit picture")},
      {picture_not_written, tr_noop("A picture of {width_px} x {height_px} pixels cannot be "
                                    "written as {kind}. Use a lower dpi or another kind of file")},
      {pages_do_not_pair,
       tr_noop("has {pages} pages; fronts and backs must alternate, so their number must be even")},
      {too_few_pages,
       tr_noop("has pages for {sheets_there} sheets, but {sheets_wanted} are asked for")},
      {turn_of_the_scan_impossible,
       tr_noop("contains {degrees}; only 0, 90, 180 and 270 are possible")},
      {program_not_started, tr_noop("cannot be started: {reason}")},
      {program_stopped, tr_noop("was stopped by the system. {output}")},
      {mupdf_missing, tr_noop("is not installed. It draws the pages for the rehearsal. Install the "
                              "Debian package mupdf-tools")},
      {poppler_missing, tr_noop("is not installed. It draws the pages for the rehearsal. Install "
                                "the Debian package poppler-utils (or mupdf-tools, for mutool)")},
      {not_a_file, tr_noop("is not a file")},
      {pdf_not_drawable, tr_noop("cannot be read as a PDF ({program}: {complaint})")},
      {page_not_drawn, tr_noop("page {page}: {program} cannot draw it ({complaint})")},
      {pages_of_other_size,
       tr_noop("its pages are {width_mm:~1} x {height_mm:~1}, the paper is {paper_width_mm:~1} x "
               "{paper_height_mm:~1}. Use the PDF and the geometry of the same target")},
      {not_a_kind_of_hole, tr_noop("must be \"punch\" or \"prick\"")},
      {not_a_side, tr_noop("must be \"recto\" or \"verso\"")},
  };
  return sentences;
}

}  // namespace versolay::words
