#include "report/print_card.h"

#include "core/numbers.h"
#include "pdf/filled_pages.h"
#include "report/figures.h"
#include "report/shapes.h"
#include "words/translation.h"

namespace versolay {
namespace {

/// The picture of the turn, as the report has it.
void draw_turn(FilledPages& page, const PrintCardRequest& request) {
  const Figure turn = turn_diagram(request.turn, request.paper);
  const Point<PageMm> top = page.picture(turn.height_mm);
  for (const Layer& layer : turn.layers) {
    for (Shape& shape : moved(layer.shapes, top.x, top.y + turn.height_mm / 2)) {
      page.drawing().push_back(std::move(shape));
    }
  }
}

/// Which pass goes where, from left to right: a sheet for each, with the corner that is marked.
void draw_passes(FilledPages& page, const PrintCardRequest& request) {
  constexpr double kSheetWidthMm = 8.0;
  constexpr double kSheetHeightMm = 11.0;
  constexpr double kPitchMm = 12.5;
  constexpr double kTurnMm = 14.0;  // between the last front and the first back
  const bool sideways = turn_axis(request.turn, request.paper) == TurnAxis::vertical;
  const double width = (2 * request.passes - 2) * kPitchMm + kTurnMm;
  const Point<PageMm> top = page.picture(kSheetHeightMm + 12);
  const double y = top.y + 6 + kSheetHeightMm / 2;
  double x = top.x - width / 2;
  Drawing& drawing = page.drawing();
  for (const Side side : {Side::recto, Side::verso}) {
    const bool front = side == Side::recto;
    const double middle = x + (request.passes - 1) * kPitchMm / 2;
    drawing.push_back(label({middle, top.y + 4}, front ? tr("fronts") : tr("backs")));
    for (int pass = 1; pass <= request.passes; ++pass) {
      drawing.push_back(outlined(rect_about({x, y}, kSheetWidthMm, kSheetHeightMm), kThinMm));
      drawing.push_back(label({x, y + 1.2}, std::to_string(pass)));
      const double corner_x = (kSheetWidthMm / 2 - 1.5) * (front || !sideways ? -1 : 1);
      const double corner_y = (kSheetHeightMm / 2 - 1.5) * (front || sideways ? -1 : 1);
      add_dot(drawing, {x + corner_x, y + corner_y});
      const bool last = pass == request.passes;
      const double step = last ? kTurnMm : kPitchMm;
      if (!last || front) {
        add_arrow(drawing, {x + kSheetWidthMm / 2 + 0.8, y},
                  {x + step - kSheetWidthMm / 2 - 0.8, y}, 0.3, 1.5);
      }
      if (last && front) {
        drawing.push_back(label({x + step / 2, y + kSheetHeightMm / 2 + 4}, tr("turn")));
      }
      x += step;
    }
  }
}

std::string turn_words(const PrintCardRequest& request) {
  return turn_axis(request.turn, request.paper) == TurnAxis::vertical
             ? tr("Turn each sheet sideways, like the page of a book: the edge that went into the "
                  "printer first goes in first again, and left and right change places.")
             : tr("Turn each sheet over its top edge: the edge that went into the printer first "
                  "now goes in last, and left and right stay.");
}

/// Pages of one pass of one side: with passes, the fronts of all sheets, pass by pass, then the
/// backs.
std::string pages_of(const PrintCardRequest& request, Side side, int pass) {
  const int first = ((side == Side::recto ? 0 : request.passes) + pass - 1) * request.sheets + 1;
  const int last = first + request.sheets - 1;
  return first == last ? tr("page {}", first) : tr("pages {} to {}", first, last);
}

/// Passes after the first: a box for each.
void further_passes(FilledPages& page, const PrintCardRequest& request, Side side) {
  for (int pass = 2; pass <= request.passes; ++pass) {
    page.tick_box(
        side == Side::recto
            ? tr("Pass {} of the fronts ({}): all sheets again, the same side up, the same edge "
                 "first, in any order. Let them dry.",
                 pass, pages_of(request, side, pass))
            : tr("Pass {} of the backs ({}): all sheets again, as for the first pass of the backs. "
                 "Let them dry.",
                 pass, pages_of(request, side, pass)));
  }
}

void fronts(FilledPages& page, const PrintCardRequest& request) {
  page.tick_box(
      tr("One warm-up sheet, then the fronts ({}), one sheet at a time. Pencil a mark into the "
         "corner that is upper left on the front.",
         request.passes == 1 ? tr("pages 1, 3, 5 ...") : pages_of(request, Side::recto, 1)));
  page.tick_box(tr("Let them dry flat until nothing comes off on a finger."));
  further_passes(page, request, Side::recto);
}

void backs(FilledPages& page, const PrintCardRequest& request) {
  page.tick_box(
      tr("Print the backs ({}) onto the sheets of the same number. Let them dry.",
         request.passes == 1 ? tr("pages 2, 4, 6 ...") : pages_of(request, Side::verso, 1)));
  further_passes(page, request, Side::verso);
}

}  // namespace

std::string print_card_pdf(const PrintCardRequest& request) {
  FilledPages page(parse_paper("a4"), {16.0, 3.3, 5.0});
  page.title(tr("Printing and scanning the target, run {}", request.run), 5.5);
  page.paragraph(tr("{} sheets, {} x {} mm, {} turn. Tick each box as you go.", request.sheets,
                    format_number(request.paper.width_mm, 2),
                    format_number(request.paper.height_mm, 2), to_string(request.turn)));
  page.gap();
  page.paragraph(tr("Before"), true);
  page.tick_box(
      tr("Nozzles checked and heads aligned. Flat paper of one pack, at room temperature, the same "
         "that the cards will be printed on; no thicker than the printer is made for."));
  page.tick_box(
      tr("Driver: actual size (100 %). Off: fit to page, centre, auto-rotate, borderless, "
         "two-sided printing. The same paper type and quality for both sides."));
  page.tick_box(tr("Feed as you feed your cards. Guides touch the paper without bowing it."));
  page.gap();
  if (request.passes > 1) {
    page.paragraph(
        tr("Every sheet is fed {} times on each side, in this order; dry and flat before "
           "each pass",
           request.passes),
        true);
    draw_passes(page, request);
    page.gap();
  }
  page.paragraph(tr("Fronts"), true);
  fronts(page, request);
  page.gap();
  page.paragraph(tr("Turn"), true);
  page.tick_box(tr("{} The dot is the corner with your mark.", turn_words(request)));
  draw_turn(page, request);
  page.gap();
  page.paragraph(tr("Backs"), true);
  backs(page, request);
  page.tick_box(tr(
      "Is the 100-mm bar 100 mm long? If it is 97 or 103, the driver still scales: print again."));
  page.gap();
  page.paragraph(tr("Holes, only now"), true);
  page.tick_box(
      tr("Office punch once on each short edge, inside the large dashed circles. Or a pin, "
         "straight down on thick card, in the middle of the nets of lines: 1 to 4, rotate by 180 "
         "degrees, 5 to 8."));
  page.gap();
  page.paragraph(tr("Scan"), true);
  page.tick_box(
      tr("Both sides of every sheet, on the glass, not through a feeder. Black card behind, "
         "pressed flat. The whole plate, 300 to 600 dpi, grey or colour, saved as PNG or TIFF."));
  page.tick_box(tr("Off: cropping, straightening, sharpening, removal of background."));
  page.gap();
  page.paragraph(tr("Caution. Never feed a punched, pricked or torn sheet through a printer. Keep "
                    "fingers clear of the punch; prick into card on the table, never on the hand "
                    "or the glass. Do not scan damp prints. Children only with the person in "
                    "charge. The makers' manuals and your local rules come first."),
                 true);
  page.gap();
  page.paragraph(tr("Then: versolay measure scans/* --out readings.json"), true);
  PdfDocument document;
  document.title = tr("Versolay print card, run {}", request.run);
  document.pages = page.take();
  return render_pdf(document);
}

}  // namespace versolay
