#include "scan/findings.h"
#include "words/sentences.h"

namespace versolay::words {

using namespace findings;

const std::vector<Sentence>& scan_sentences() {
  static const std::vector<Sentence> sentences = {
      {scan_damaged, tr_noop("the file is incomplete or damaged ({detail}). Scan the sheet again, "
                             "or copy the file again")},
      {scan_without_pixels, tr_noop("the file is incomplete or damaged (it has no pixels). Scan "
                                    "the sheet again, or copy the file again")},
      {scan_too_large, tr_noop("the image is too large: {width_px} x {height_px} pixels; at most "
                               "{most_megapixels:~1} million in all and {most_side_px} on a side "
                               "are read. Scan at a lower resolution: 300 to 600 dpi is enough")},
      {scan_too_deep, tr_noop("the image takes too much memory: {bits_per_pixel} bits for each of "
                              "{megapixels:~1} million pixels. Scan in grey or in 24-bit colour")},
      {scan_unreadable, tr_noop("cannot be read: {reason}")},
      {scan_is_a_folder, tr_noop("is a folder. Name the scan files in it")},
      {scan_is_no_file, tr_noop("is not a regular file. Save the scan to a file first")},
      {scan_is_empty, tr_noop("is empty (0 bytes). Scan the sheet again, or copy the file again")},
      {not_a_scan_format,
       tr_noop(
           "is not a PNG, JPEG, TIFF or PDF file. Save the scan as one of these and try again")},
      {program_missing,
       tr_noop("reading a PDF needs the program {program} (package poppler-utils), which is not "
               "installed. Install it, or save the scan as a PNG or TIFF file")},
      {scanned_pdf_packing,
       tr_noop("the picture in the PDF is compressed in a way that cannot be read in a browser. "
               "Save the scan as a PNG, JPEG or TIFF file")},
      {scanned_pdf_beyond_limits,
       tr_noop("the PDF could not be read within {seconds} seconds and {megabytes} MB of memory. "
               "Save the scan as a PNG or TIFF file")},
      {scanned_pdf_damaged, tr_noop("the PDF is damaged or locked by a password. Scan the sheet "
                                    "again, or save the scan as a PNG or TIFF file")},
      {scanned_pdf_too_long,
       tr_noop(
           "has {pages} pages; at most {most_pages} are read. Save the scans in several files")},
      {reading_stopped, tr_noop("was not read: stopped")},
      {no_temporary_folder, tr_noop("no temporary folder can be made to unpack the page. Make "
                                    "room, or set TMPDIR to a folder that can be written")},
      {no_memory_for_scan, tr_noop("there is not enough memory for its {width_px} x {height_px} "
                                   "pixels. Close other programs, or scan at a lower resolution")},
      {scan_resolution_uneven,
       tr_noop("{scan} was scanned with {across_dpi:~1} dpi across and {down_dpi:~1} dpi down. "
               "Scan with the same resolution both ways, 300 or 600 dpi, if you can.")},
      {scan_mirrored, tr_noop("{scan} says that it is stored as a mirror image; it was mirrored "
                              "back before it was read.")},
      {scan_black_and_white,
       tr_noop(
           "{scan} is pure black and white: edges are known to a whole pixel only. Scan in grey.")},
      {too_many_scan_pages,
       tr_noop("has more than {most_pages} pages. Save the scans in several files")},
      {scan_unsupported,
       tr_noop("this kind of image is not supported ({detail}). Save it as 8-bit grey or RGB in a "
               "PNG or TIFF file, without changing its size in pixels, or scan the sheet again")},
      {scan_in_cmyk, tr_noop("the image is in CMYK colours, which are for printing and not for "
                             "scans. Save it as 8-bit grey or RGB in a PNG or TIFF file, without "
                             "changing its size in pixels, or scan the sheet again")},
      {scan_jpeg_colours,
       tr_noop("the image is a JPEG with an unknown colour model. Save it as 8-bit grey or RGB in "
               "a PNG or TIFF file, without changing its size in pixels, or scan the sheet again")},
      {scan_thumbnail_only,
       tr_noop("the image is a thumbnail or a mask only. Save it as 8-bit grey or RGB in a PNG or "
               "TIFF file, without changing its size in pixels, or scan the sheet again")},
      {scan_tiff_compression,
       tr_noop("the compression of the image is not supported (TIFF compression {compression}). "
               "Save it as 8-bit grey or RGB in a PNG or TIFF file, without changing its size in "
               "pixels, or scan the sheet again")},
      {scan_tiff_colours,
       tr_noop("the colour model of the image is not supported (TIFF photometric {photometric}). "
               "Save it as 8-bit grey or RGB in a PNG or TIFF file, without changing its size in "
               "pixels, or scan the sheet again")},
      {scan_tiff_samples,
       tr_noop("the samples of the image are not supported ({bits} bits, TIFF sample format "
               "{format}). Save it as 8-bit grey or RGB in a PNG or TIFF file, without changing "
               "its size in pixels, or scan the sheet again")},
      {scan_tiff_values,
       tr_noop("the image has {values} values per pixel. Save it as 8-bit grey or RGB in a PNG or "
               "TIFF file, without changing its size in pixels, or scan the sheet again")},
      {scan_truncated,
       tr_noop("the file is incomplete or damaged (too short for its {width_px} x {height_px} "
               "pixels). Scan the sheet again, or copy the file again")},
      {no_such_scan_page,
       {"pages", trn_noop("has {pages} page, there is no page {page}",
                          "has {pages} pages, there is no page {page}")}},
      {scanned_pdf_without_pages, tr_noop("the file is incomplete or damaged (the PDF has no "
                                          "pages). Scan the sheet again, or copy the file again")},
      {scanned_pdf_without_page_size,
       tr_noop("the file is incomplete or damaged (the PDF does not say how large the page is). "
               "Scan the sheet again, or copy the file again")},
      {scanned_pdf_not_unpacked,
       tr_noop("the file is incomplete or damaged (its picture could not be unpacked). Scan the "
               "sheet again, or copy the file again")},
      {scanned_pdf_without_end, tr_noop("the file is incomplete or damaged (the end of the PDF is "
                                        "missing). Scan the sheet again, or copy the file again")},
      {scanned_pdf_picture_differs,
       tr_noop("the file is incomplete or damaged (its picture has another size than the PDF "
               "says). Scan the sheet again, or copy the file again")},
      {scanned_page_empty,
       tr_noop("the page is not one scanned picture: it contains no picture. Save the scan as a "
               "PNG or TIFF file, or set the scanner program to plain PDF without text recognition "
               "or extra compression")},
      {scanned_page_of_pictures,
       tr_noop("the page is not one scanned picture: it is made of {pictures} pictures. Save the "
               "scan as a PNG or TIFF file, or set the scanner program to plain PDF without text "
               "recognition or extra compression")},
      {scanned_page_masked,
       tr_noop("the page is not one scanned picture: its picture is a mask. Save the scan as a PNG "
               "or TIFF file, or set the scanner program to plain PDF without text recognition or "
               "extra compression")},
      {scanned_page_partly_covered,
       tr_noop(
           "the page is not one scanned picture: the picture covers only {width_share} of its "
           "width and {height_share} of its height. Save the scan as a PNG or TIFF file, or set "
           "the scanner program to plain PDF without text recognition or extra compression")},
      {scanned_pdf_without_pictures,
       tr_noop("the page is not one scanned picture: none of its first {pages} pages contains a "
               "picture. Save the scan as a PNG or TIFF file, or set the scanner program to plain "
               "PDF without text recognition or extra compression")},
      {no_scans_in_folder, tr_noop("has no scans: PNG, JPEG, TIFF or PDF files are needed")},
  };
  return sentences;
}

}  // namespace versolay::words
