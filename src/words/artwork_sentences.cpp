#include "artwork/findings.h"
#include "words/sentences.h"

namespace versolay::words {

using namespace findings;

const std::vector<Sentence>& artwork_sentences() {
  static const std::vector<Sentence> sentences = {
      {font_damaged, tr_noop("cannot be used as a font. Install the DejaVu fonts again (Debian: "
                             "fonts-dejavu-core)")},
      {picture_empty, tr_noop("is empty. Export or copy it again")},
      {not_a_picture,
       tr_noop("is not a JPEG, PNG or TIFF, whatever its name says. Save it as one of them")},
      {picture_changed, tr_noop("was changed while the job was made. Start again")},
      {picture_unsupported, tr_noop("is a kind of {format} that cannot be read ({detail}). Save it "
                                    "as an ordinary JPEG, or as PNG or TIFF with 8 bits")},
      {picture_beyond_the_library, tr_noop("is too large ({detail}). Save a smaller copy")},
      {picture_damaged, tr_noop("is a damaged {format} ({detail}). Export or copy it again")},
      {picture_without_pixels, tr_noop("is damaged: it states a size of {size}")},
      {picture_too_large,
       tr_noop("is too large: {size}. At most 30000 px a side and 300 megapixels are read; 600 ppi "
               "is plenty for a card. Save a smaller copy")},
      {picture_too_large_to_unpack,
       tr_noop("is too large to be unpacked: {width_px} x {height_px} px, at most 75 megapixels. "
               "Save a smaller copy, or for printing a JPEG or a PNG without transparency")},
      {page_not_named, tr_noop("has {pages} pages. Say which one: {name}#1")},
      {picture_channels, tr_noop("has {channels} colour channels; grey, RGB or CMYK is needed")},
      {picture_cmyk, tr_noop("is a CMYK image; its pixels can only be kept as they are. Write a "
                             "PDF, or save the image as RGB")},
      {too_many_pictures, tr_noop("has more than {most} pictures. Save them in several files")},
      {picture_has_no_such_page,
       {"pages", trn_noop("has {pages} page, not {page}", "has {pages} pages, not {page}")}},
  };
  return sentences;
}

}  // namespace versolay::words
