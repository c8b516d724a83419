#include "app/print_card.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "app/filled_pages.h"
#include "core/numbers.h"

namespace versolay {
namespace {

using P = Point<PageMm>;

constexpr double kPictureMm = 46.0;  // height of the row of pictures
constexpr double kSheetMm = 34.0;    // long side of a sheet in a picture
constexpr double kNameMm = -3.0;     // base line of FRONT and BACK, clear of the line of the turn
constexpr double kFineMm = 0.2;
constexpr double kBoldMm = 0.5;

/// A small sheet of paper seen from one side, with its top and one marked corner.
class SmallSheet {
 public:
  SmallSheet(Drawing& drawing, const Paper& paper, P centre) : drawing_(drawing), centre_(centre) {
    const double scale = kSheetMm / std::max(paper.width_mm, paper.height_mm);
    half_width_ = scale * paper.width_mm / 2;
    half_height_ = scale * paper.height_mm / 2;
    line({{-1, -1}, {1, -1}, {1, 1}, {-1, 1}}, kBoldMm, true);
  }

  double half_width() const { return half_width_; }
  double half_height() const { return half_height_; }

  void words(const std::string& utf8, double y, double size_mm, bool bold) {
    drawing_.push_back(
        Text{{centre_.x, centre_.y + y}, utf8, size_mm, Align::centre, 0.0, bold, {}});
  }
  /// Filled where it is on this side of the sheet, an outline where it is seen through.
  void corner(double right, double down, bool on_this_side) {
    const double size = 5.0;
    const P tip = place(right, down);
    const std::vector<P> corners = {
        tip, {tip.x - right * size, tip.y}, {tip.x, tip.y - down * size}};
    if (on_this_side) {
      drawing_.push_back(Polygon{corners, {}});
    } else {
      drawing_.push_back(Polyline{corners, kFineMm, true, 0.6, {}});
    }
  }
  /// The edge about which it was turned.
  void axis(bool vertical) {
    if (vertical) {
      line({{0, -1.12}, {0, 1.12}}, kFineMm, false, 1.2);
    } else {
      line({{-1.12, 0}, {1.12, 0}}, kFineMm, false, 1.2);
    }
  }

 private:
  P place(double x, double y) const {
    return {centre_.x + x * half_width_, centre_.y + y * half_height_};
  }
  void line(const std::vector<P>& relative, double width_mm, bool closed, double dash_mm = 0.0) {
    std::vector<P> points;
    for (const P& p : relative) points.push_back(place(p.x, p.y));
    drawing_.push_back(Polyline{points, width_mm, closed, dash_mm, {}});
  }

  Drawing& drawing_;
  P centre_;
  double half_width_ = 0.0;
  double half_height_ = 0.0;
};

/// Half an ellipse with an arrow head at its end: left to right, or down.
void turning_arrow(Drawing& drawing, P from, P to, double bulge_mm) {
  const Eigen::Vector2d along = to.vec() - from.vec();
  const Eigen::Vector2d across(along.y(), -along.x());
  std::vector<P> points;
  for (int i = 0; i <= 24; ++i) {
    const double angle = std::numbers::pi * i / 24;
    const Eigen::Vector2d p = from.vec() + along * (1 - std::cos(angle)) / 2 +
                              across.normalized() * bulge_mm * std::sin(angle);
    points.push_back(P::from(p));
  }
  drawing.push_back(Polyline{points, kBoldMm, false, 0.0, {}});
  const Eigen::Vector2d back = -across.normalized();  // the way in which it arrives
  const Eigen::Vector2d side(-back.y(), back.x());
  drawing.push_back(
      Polygon{{P::from(to.vec() + 0.6 * back), P::from(to.vec() - 2.4 * back + 1.3 * side),
               P::from(to.vec() - 2.4 * back - 1.3 * side)},
              {}});
}

void draw_turn(FilledPages& page, const PrintCardRequest& request) {
  const bool vertical = turn_axis(request.turn, request.paper) == TurnAxis::vertical;
  const P top = page.picture(kPictureMm);
  const double y = top.y + 5.0 + kSheetMm / 2;
  Drawing& drawing = page.drawing();
  SmallSheet front(drawing, request.paper, {top.x - 46.0, y});
  front.words("FRONT", kNameMm, 5.0, true);
  front.words("top", -front.half_height() + 4.0, 2.8, false);
  front.corner(-1, -1, true);
  front.axis(vertical);

  SmallSheet back(drawing, request.paper, {top.x + 46.0, y});
  back.words("BACK", kNameMm, 5.0, true);
  back.words("top", -back.half_height() + 4.0, 2.8, false);
  // The corner that was marked on the front is now behind: over there, or down there.
  back.corner(vertical ? 1 : -1, vertical ? -1 : 1, false);

  const double x = top.x;
  if (vertical) {
    turning_arrow(drawing, {x - 14.0, y + 4.0}, {x + 14.0, y + 4.0}, 10.0);
    drawing.push_back(
        Text{{x, y + 9.0}, "like the page of a book", 3.0, Align::centre, 0.0, false, {}});
  } else {
    turning_arrow(drawing, {x - 3.0, y - 12.0}, {x - 3.0, y + 8.0}, 9.0);
    drawing.push_back(Text{{x, y + 13.0}, "over its top edge", 3.0, Align::centre, 0.0, false, {}});
  }
  drawing.push_back(Text{{top.x + 46.0, y + kSheetMm / 2 + 4.0},
                         "dashed: the corner marked on the front, now behind",
                         2.4,
                         Align::centre,
                         0.0,
                         false,
                         {}});
}

std::string turn_words(const PrintCardRequest& request) {
  return turn_axis(request.turn, request.paper) == TurnAxis::vertical
             ? "Turn each sheet sideways, like the page of a book: the edge that went into the "
               "printer first goes in first again, and left and right change places."
             : "Turn each sheet over its top edge: the edge that went into the printer first now "
               "goes in last, and left and right stay.";
}

}  // namespace

std::string print_card_pdf(const PrintCardRequest& request) {
  FilledPages page(parse_paper("a4"), {16.0, 3.3, 5.0});
  page.title(fmt::format("Printing and scanning the target, run {}", request.run), 5.5);
  page.paragraph(fmt::format("{} sheets, {} x {} mm, {} turn. Tick each box as you go.",
                             request.sheets, format_number(request.paper.width_mm, 2),
                             format_number(request.paper.height_mm, 2), to_string(request.turn)));
  page.gap();
  page.paragraph("Before", true);
  page.tick_box(
      "Nozzles checked and heads aligned. Flat paper of one pack, at room temperature, the same "
      "that the cards will be printed on; no thicker than the printer is made for.");
  page.tick_box(
      "Driver: actual size (100 %). Off: fit to page, centre, auto-rotate, borderless, two-sided "
      "printing. The same paper type and quality for both sides.");
  page.tick_box("Feed as you feed your cards. Guides touch the paper without bowing it.");
  page.gap();
  page.paragraph("Fronts", true);
  page.tick_box(
      "One warm-up sheet, then the fronts (pages 1, 3, 5 ...), one sheet at a time. Pencil a mark "
      "into the corner that is upper left on the front.");
  page.tick_box("Let them dry flat until nothing comes off on a finger.");
  page.gap();
  page.paragraph("Turn", true);
  page.tick_box(turn_words(request));
  draw_turn(page, request);
  page.paragraph("Backs", true);
  page.tick_box(
      "Print the backs (pages 2, 4, 6 ...) onto the sheets of the same number. Let them dry.");
  page.tick_box(
      "Is the 100-mm bar 100 mm long? If it is 97 or 103, the driver still scales: print again.");
  page.gap();
  page.paragraph("Holes, only now", true);
  page.tick_box(
      "Office punch once on each short edge, inside the large dashed circles. Or a pin, straight "
      "down on thick card, in the small circles: 1 to 4, turn the sheet round, 5 to 8.");
  page.gap();
  page.paragraph("Scan", true);
  page.tick_box(
      "Both sides of every sheet, on the glass, not through a feeder. Black card behind, pressed "
      "flat. The whole plate, 300 to 600 dpi, grey or colour, saved as PNG or TIFF.");
  page.tick_box("Off: cropping, straightening, sharpening, removal of background.");
  page.gap();
  page.paragraph(
      "Caution. Never feed a punched, pricked or torn sheet through a printer. Keep fingers clear "
      "of the punch; prick into card on the table, never on the hand or the glass. Do not scan "
      "damp "
      "prints. Children only with the person in charge. The makers' manuals and your local rules "
      "come first.",
      true);
  page.gap();
  page.paragraph("Then: versolay measure scans/* --out readings.json", true);
  PdfDocument document;
  document.title = "Versolay print card, run " + request.run;
  document.pages = page.take();
  return render_pdf(document);
}

}  // namespace versolay
