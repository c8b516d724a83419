#include "measure/findings.h"
#include "words/sentences.h"

namespace versolay::words {

using namespace findings;

const std::vector<Sentence>& measure_sentences() {
  static const std::vector<Sentence> sentences = {
      {negative, tr_noop("This picture is a negative: dark and light are swapped. Turn off "
                         "negative or film mode in the scanner program, and scan again.")},
      {findings::mirrored,
       tr_noop("This picture is a mirror image: left and right are swapped. Turn off "
               "mirroring (also called flip, or printing for transfers) in the "
               "printer's and the scanner's settings and in the picture program, and "
               "scan again; if the print itself is mirrored, print again.")},
      {dark_picture,
       tr_noop("This picture is all dark. Lay the printed side on the glass, with the black card "
               "behind the sheet and not under it, and scan again.")},
      {blank_page, tr_noop("This page is blank. Lay the printed side on the glass; if it was "
                           "printed, scan it darker.")},
      {picture_too_small,
       tr_noop("This picture is only {width_px} x {height_px} pixels large. Scan "
               "the whole sheet at 200 dpi or more.")},
      {no_marks,
       tr_noop("No Versolay target and no marks in the waste were found in this picture. Scan the "
               "printed sheet itself, whole, printed side on the glass, at 200 dpi or more.")},
      {too_few_marks,
       {"picture", "photograph"},
       tr_noop("This looks like a photograph: only {rings_found} of {rings_expected} rings of this "
               "page can be read. Hold the camera still and straight above the sheet, in even "
               "light, so that the sheet fills the picture and is sharp all over.")},
      {too_few_marks,
       tr_noop("Only {rings_found} of {rings_expected} rings of this page can be read. Press the "
               "sheet flat, clean the glass and scan again at 300 dpi or more.")},
      {one_tag_only, tr_noop("Only one corner tag of the sheet can be seen. Scan the whole sheet, "
                             "flat and with its corners on the glass.")},
      {mixed_marks,
       tr_noop("This scan shows more than one sheet. Scan one side of one sheet at a time.")},
      {identity_unreadable,
       tr_noop("The square codes near the corners cannot be read, so the sheet is not known. Scan "
               "again at 300 dpi or more, without cropping or sharpening. With a camera: nearer, "
               "held still, in better light.")},
      {photograph_askew,
       tr_noop("This looks like a photograph taken from the side. Hold the camera "
               "straight above the middle of the sheet.")},
      {photograph_too_small,
       tr_noop("This looks like a photograph, and has only {px_per_mm:1} pixels for a millimetre "
               "of the sheet; {least_px_per_mm:0} are needed. Let the sheet fill the picture, and "
               "set the camera to its full resolution.")},
      {photograph_not_flat, tr_noop("This looks like a photograph of a sheet that is not flat: its "
                                    "marks are up to {off_mm:1} from where a flat sheet has them. "
                                    "Weigh down its corners, or lay a pane of glass on it.")},
      {carriage_jerks, tr_noop("The scanner jerked along {scan} by about {jerk_mm:2} every few "
                               "millimetres, too fast for the marks to follow: offsets can be "
                               "wrong by that much. Scan at a higher resolution, which is slower, "
                               "and scan each side a second time, rotated by 180 degrees.")},
      {scan_lines_lost,
       tr_noop("A part of {scan} is displaced by {step_mm:2} against the rest: the scanner lost or "
               "repeated lines, or the sheet moved while it was scanned. Scan this side again.")},
      {marks_missing,
       tr_noop("Only {rings_seen} of {rings_expected} marks are seen on {scan}: a part of it is "
               "covered, blurred or not scanned. Scan this side again.")},
      {scan_smeared,
       tr_noop(
           "The marks of {scan} have a tail to one side ({tail_share:1} of their blackness): "
           "the scanner does not follow fast enough, the sheet moved, or the print of the other "
           "side shows through. Holes and marks may be displaced by different amounts. Scan "
           "this side again, more slowly; if that does not help, use thicker paper.")},
      {marks_smeared,
       tr_noop("Marks near {hole} on {scan} are smeared or the paper is not flat: they disagree by "
               "up to {off_mm:2}.")},
      {scan_fault, tr_noop("Reading this picture failed ({fault}). Scan the sheet again; if that "
                           "does not help, send the picture to the developers of this program.")},
      {no_memory_for_picture, tr_noop("There is not enough memory to read it. Scan at 300 dpi.")},
      {pass_missing,
       tr_noop("{scan}: pass {pass} is missing on this side. The sheet counts without it; feed it "
               "again only if it is not punched")},
      {pass_on_wrong_side,
       tr_noop("{scan}: pass {pass} of the other side was printed on this side. The sheet counts "
               "without it")},
      {pass_fed_round,
       tr_noop("{scan}: pass {pass} was fed the other way round. Feed every pass by the same edge. "
               "The sheet counts without it")},
      {pass_printed_twice,
       tr_noop("{scan}: pass {pass} was printed twice on this side. The sheet counts without it")},
      {pass_unclear,
       tr_noop("{scan}: pass {pass} cannot be read: its rings are not where they should be, or "
               "something is printed over them. The sheet counts without it")},
      {passes_need_scans,
       tr_noop("{scan} is a photograph: further passes are read from scans only")},
  };
  return sentences;
}

}  // namespace versolay::words
