// A print-ready PDF, described in page millimetres, and its bytes.
//
// PDF user space has its origin at the lower left corner, y up, in points:
//
//   x_pt = (x_mm + w/2) * 72 / 25.4        y_pt = (h/2 - y_mm) * 72 / 25.4
//
// All ink is written in DeviceGray. It is the only black that stays black on both paths to the
// paper: a driver that works in RGB gets (0, 0, 0), and a CMYK device gets K = 1 - gray with no
// cyan, magenta or yellow (ISO 32000-1, 10.3.3). DeviceCMYK 0 0 0 1 does not: viewers convert it
// to RGB through a press profile, and the dark grey that comes out is printed with coloured ink.
#pragma once

#include <cstdio>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "artwork/coded_image.h"
#include "core/drawing.h"
#include "pdf/cards_note.h"
#include "pdf/page_art.h"
#include "versolay/paper.h"
#include "versolay/registration.h"

namespace versolay {

/// An image on a page: scaled and turned about its centre, then cropped.
struct PlacedImage {
  std::size_t image = 0;  // index into PdfDocument::images
  Point<PageMm> centre;
  double width_mm = 0.0;  // as the image is meant to be seen, before the quarter turns
  double height_mm = 0.0;
  int quarter_turns = 0;  // clockwise as one looks at the page
  PageRect crop;          // nothing of the image is painted outside
};

/// A rectangle in one colour, in the colour space of an image: it continues the image's edge.
struct ColourField {
  PageRect area;
  std::size_t image = 0;       // index into PdfDocument::images; not a page of a PDF
  std::vector<double> colour;  // 0..1, one per component of the image
};

struct PdfPage {
  Paper paper;
  Drawing drawing;
  std::vector<PlacedImage> images{};           // painted under the drawing
  std::vector<ColourField> fields{};           // painted first, under the images
  Affine<PageMm, PageMm> page_from_content{};  // of all of the page; nothing is resampled
};

/// What a card shows: a picture, or a page of a PDF.
using Artwork = std::variant<CodedImage, PageArt>;

struct PdfDocument {
  std::string title;  // UTF-8
  Turn turn = Turn::long_edge;
  std::vector<PdfPage> pages;     // recto, verso, recto, verso, ...
  std::vector<Artwork> images{};  // each is stored once, however often it is placed
  /// That the backs went through, noted in the file (pdf/correction_mark.h); nullopt: none.
  std::optional<Registration> backs_moved{};
  /// Where the cards are, noted in the file (pdf/cards_note.h); nullopt: nothing is.
  std::optional<CardsNote> cards{};
};

/// The finished file. The boxes of every page are its exact size; viewer preferences ask not to
/// scale (PrintScaling None, enforced), name the edge to turn on (Duplex) and select the tray by
/// the size of the page. Dated by utc_now(), with an ID made from the content: under
/// SOURCE_DATE_EPOCH the same document gives the same bytes.
/// Images are stored as they were coded; matrices have nine decimals (libharu's five would be off
/// by 2.5 um at the far corner of an A4 page). Throws Error when a font is missing or a text is not
/// UTF-8; std::logic_error when a coordinate is not finite.
std::string render_pdf(const PdfDocument& document);

/// The same into a file. Images whose data were dropped are read one after the other during
/// writing, so that memory use does not grow with their number.
void write_pdf(const PdfDocument& document, std::FILE* file);

}  // namespace versolay
