#include "report/cut_card.h"

#include <algorithm>
#include <cmath>

#include "core/numbers.h"
#include "pdf/filled_pages.h"
#include "words/job_words.h"
#include "words/say.h"
#include "words/translation.h"

namespace versolay {
namespace {

constexpr FilledPages::Style kStyle{13.0, 2.9, 3.85};
constexpr double kPictureHeightMm = 56.0;
constexpr double kNumbersMm = 4.0;  // above the picture

std::string mm(double value) { return format_number(value, 2) + " mm"; }

Point<PageMm> at(double x, double y) { return {x, y}; }

/// The sheet, small, with blocks, cards and the numbers of the cuts that are set by marks.
class Picture {
 public:
  Picture(Drawing& drawing, const CutCardRequest& r, Point<PageMm> centre)
      : drawing_(drawing),
        r_(r),
        centre_(centre),
        scale_(std::min(kPictureHeightMm / r.sheet.height_mm, 130.0 / r.sheet.width_mm)) {}

  void draw() {
    rectangle({0, 0}, r_.sheet.width_mm, r_.sheet.height_mm, 0.3, 1.0);
    for (const Cell& cell : r_.grid.cells) {
      rectangle(cell.centre, r_.grid.card.width_mm, r_.grid.card.height_mm, 0.12, 0.5);
    }
    for (const CardBlock& block : r_.grid.blocks) edges(block);
    if (r_.plan.halving) halving();
  }

 private:
  Point<PageMm> place(const Point<RectoMm>& p) const {
    return {centre_.x + scale_ * p.x, centre_.y + scale_ * p.y};
  }

  void rectangle(const Point<RectoMm>& centre, double width, double height, double line_mm,
                 double ink) {
    const Point<PageMm> c = place(centre);
    const double x = scale_ * width / 2;
    const double y = scale_ * height / 2;
    drawing_.push_back(Polyline{
        {at(c.x - x, c.y - y), at(c.x + x, c.y - y), at(c.x + x, c.y + y), at(c.x - x, c.y + y)},
        line_mm,
        true,
        0.0,
        {ink}});
  }

  void cut_line(Point<PageMm> a, Point<PageMm> b, double dash_mm) {
    drawing_.push_back(Polyline{{a, b}, 0.4, false, dash_mm, {}});
  }

  void number(int n, Point<PageMm> where) {
    drawing_.push_back(Text{.at = at(where.x, where.y + 1.1),
                            .utf8 = std::to_string(n),
                            .size_mm = 3.0,
                            .align = Align::centre,
                            .bold = true});
  }

  /// Blocks one above the other share the numbers at the top, side by side those at the left.
  bool starts_column(const CardBlock& block) const {
    return block.centre.y <= r_.grid.blocks.front().centre.y + 1e-9;
  }
  bool starts_row(const CardBlock& block) const {
    return block.centre.x <= r_.grid.blocks.front().centre.x + 1e-9;
  }

  void edges(const CardBlock& block) {
    const Point<PageMm> c = place(block.centre);
    const double x = scale_ * block.width_mm / 2;
    const double y = scale_ * block.height_mm / 2;
    constexpr double kOver = 2.0;  // the lines cross the corners
    // The numbers are outside the sheet.
    const double above = centre_.y - scale_ * r_.sheet.height_mm / 2 - 2.5;
    const double beside = centre_.x - scale_ * r_.sheet.width_mm / 2 - 3.0;
    edge_names(block, c, x, y);
    const int vertical = r_.plan.first_edge + (r_.plan.first_edge_is_vertical ? 0 : 1);
    const int horizontal = r_.plan.first_edge + (r_.plan.first_edge_is_vertical ? 1 : 0);
    for (const int side : {-1, 1}) {
      const int later = side < 0 ? 0 : 2;
      cut_line(at(c.x + side * x, c.y - y - kOver), at(c.x + side * x, c.y + y + kOver), 0);
      if (starts_column(block)) number(vertical + later, at(c.x + side * x, above));
      cut_line(at(c.x - x - kOver, c.y + side * y), at(c.x + x + kOver, c.y + side * y), 0);
      if (starts_row(block)) number(horizontal + later, at(beside, c.y + side * y));
    }
  }

  /// The two edges that all later cuts are measured from, named inside the block, beside the middle
  /// of a card.
  void edge_names(const CardBlock& block, const Point<PageMm>& c, double x, double y) {
    const auto off_line = [&](int count, double card_mm) {
      return count % 2 == 0 ? scale_ * (card_mm + r_.grid.gutter_mm) / 2 : 0.0;
    };
    const double down = c.y + off_line(block.rows, r_.grid.card.height_mm);
    const double across = c.x - off_line(block.columns, r_.grid.card.width_mm);
    const auto name = [&](int n, bool vertical) {
      const std::string words = tr("edge {}", n);
      drawing_.push_back(vertical ? Text{.at = at(c.x - x + 3.2, down),
                                         .utf8 = words,
                                         .size_mm = 2.4,
                                         .align = Align::centre,
                                         .angle_deg = -90.0}
                                  : Text{.at = at(across, c.y - y + 3.2),
                                         .utf8 = words,
                                         .size_mm = 2.4,
                                         .align = Align::centre});
    };
    name(1, r_.plan.first_edge_is_vertical);
    name(2, !r_.plan.first_edge_is_vertical);
  }

  void halving() {
    const Point<PageMm> a = place(r_.grid.blocks[0].centre);
    const Point<PageMm> b = place(r_.grid.blocks[1].centre);
    const Point<PageMm> middle{(a.x + b.x) / 2, (a.y + b.y) / 2};
    const double x = scale_ * r_.sheet.width_mm / 2;
    const double y = scale_ * r_.sheet.height_mm / 2;
    const bool vertical = std::abs(a.x - b.x) > std::abs(a.y - b.y);
    if (vertical) {
      cut_line(at(middle.x, centre_.y - y), at(middle.x, centre_.y + y), 2.0);
      number(*r_.plan.halving, at(middle.x, centre_.y - y - 2.5));
    } else {
      cut_line(at(centre_.x - x, middle.y), at(centre_.x + x, middle.y), 2.0);
      number(*r_.plan.halving, at(centre_.x + x + 3, middle.y));
    }
  }

  Drawing& drawing_;
  const CutCardRequest& r_;
  Point<PageMm> centre_;
  double scale_;
};

void table(FilledPages& pages, const CutPlan& plan) {
  constexpr double kFenceMm = 92;
  constexpr double kStrokesMm = 110;
  constexpr double kAgainstMm = 116;
  constexpr double kWhatMm = 68;
  const FilledPages::Row titles = {{0, tr("Cut"), Align::left, true},
                                   {kFenceMm, tr("Fence"), Align::right, true},
                                   {kStrokesMm + 2, tr("Strokes"), Align::right, true},
                                   {kAgainstMm, tr("How"), Align::left, true}};
  std::vector<FilledPages::Row> rows;
  for (const Cut& cut : plan.cuts) {
    const bool fence = cut.by == CutBy::fence;
    rows.push_back({{4, std::to_string(cut.number), Align::right, true},
                    {7, words::say(cut.what), Align::left, false, kWhatMm},
                    {kFenceMm, fence ? mm(cut.fence_mm) : tr("marks"), Align::right, fence},
                    {kStrokesMm, std::to_string(cut.strokes), Align::right},
                    {kAgainstMm,
                     fence     ? tr("the edge of cut {} at the fence", *cut.against_cut)
                     : cut.why ? words::say(*cut.why)
                               : "",
                     Align::left, false, pages.width_mm() - kAgainstMm}});
  }
  pages.table(titles, rows);
}

bool american(const Paper& paper) { return paper.name == "letter" || paper.name == "tabloid"; }

/// Strokes that the other kind of layout would take.
std::string strokes_words(const CutCardRequest& r) {
  const CardBlock& block = r.grid.blocks.front();
  const int cards = block.columns * block.rows;
  const bool gutters = r.grid.gutter_mm > 0;
  if (cards == 1) return tr("{} strokes a sheet", r.plan.strokes);
  const int inner = (cards - 1) * static_cast<int>(r.grid.blocks.size());
  return tr("{} strokes a sheet ({} {})", r.plan.strokes,
            r.plan.strokes + (gutters ? -inner : inner),
            gutters ? tr("without gutters") : tr("with gutters"));
}

void lead(FilledPages& pages, const CutCardRequest& r) {
  const CardBlock& block = r.grid.blocks.front();
  pages.paragraph(
      tr("Cards {} x {} mm as they lie, {} to a block{}, {}; block {} x {} mm; {}. Front side up "
         "throughout.",
         format_number(r.grid.card.width_mm, 2), format_number(r.grid.card.height_mm, 2),
         block.columns * block.rows, r.grid.blocks.size() == 2 ? tr(", two blocks a sheet") : "",
         r.grid.gutter_mm > 0 ? tr("gutter {}", mm(r.grid.gutter_mm))
                              : tr("no gutter: one cut serves two cards"),
         format_number(block.width_mm, 2), format_number(block.height_mm, 2), strokes_words(r)));
  if (r.thickness) pages.paragraph(words::thickness_words(*r.thickness));
}

void sorting(FilledPages& pages, const CutCardRequest& r) {
  if (!r.look_through) return;
  pages.tick_box(
      tr("Sort the sheets at a lamp, front towards you: behind each pair of fine circles in the "
         "waste there is a dot. Inside the inner circle: off by less than {} mm. Across the outer "
         "circle: off by more than {} mm, so set the sheet aside.",
         format_number(r.look_through->inner_gap_mm, 2),
         format_number(r.look_through->outer_gap_mm, 2)));
}

/// What goes through the laminator: sheets, or their halves.
std::string laminating_order(const CutCardRequest& r) {
  if (!r.plan.halving) {
    return tr(
        "If you laminate, do it now, before any cut: whole sheets, each in a pouch larger than "
        "the sheet on all sides.");
  }
  const bool side_by_side = std::abs(r.grid.blocks[0].centre.x - r.grid.blocks[1].centre.x) >
                            std::abs(r.grid.blocks[0].centre.y - r.grid.blocks[1].centre.y);
  return tr(
      "If you laminate, do it now. If laminator and pouches take the whole sheet, laminate it "
      "whole; "
      "cut {0} comes afterwards. If they take only half of it ({1} x {2} mm), make cut {0} first, "
      "then laminate the halves, each in a whole pouch of its own that is larger than the half on "
      "all sides.",
      *r.plan.halving, format_number(side_by_side ? r.sheet.width_mm / 2 : r.sheet.width_mm, 1),
      format_number(side_by_side ? r.sheet.height_mm : r.sheet.height_mm / 2, 1));
}

void laminating(FilledPages& pages, const CutCardRequest& r) {
  pages.tick_box(tr("Let both sides dry: damp prints smear, and must never be laminated."));
  sorting(pages, r);
  pages.tick_box(
      laminating_order(r) + " " +
      tr("Caution: the rollers are hot. Sealed edge of the pouch first and straight; never an "
         "empty "
         "or cut-down pouch, and no more heat than pouch and laminator's manual allow; ventilate; "
         "on "
         "a jam switch off and unplug; keep children away. Let it cool flat under a weight."));
  pages.tick_box(
      r.laminated_settings
          ? tr("Settings are for laminated sheets: printed size times {} across, {} down. A "
               "finished card is {} x {} mm as it lies.",
               format_fixed(r.plan.stretch_x, 4), format_fixed(r.plan.stretch_y, 4),
               format_number(r.grid.card.width_mm * r.plan.stretch_x, 2),
               format_number(r.grid.card.height_mm * r.plan.stretch_y, 2))
          : tr("Laminating and drying change the size a little: measure the block between its "
               "guides on a finished sheet. If it is off by more than 0.2 mm, make this card again "
               "with --laminated-mm MEASURED/{},MEASURED/{} (across, down).",
               format_number(r.grid.blocks.front().width_mm, 2),
               format_number(r.grid.blocks.front().height_mm, 2)));
}

void corners(FilledPages& pages) {
  pages.tick_box(tr(
      "Round corners, if you want them, come last: try the corner punch on a spare card, hold "
      "every card tight in both stops, the same side up, and no more cards at a time than the "
      "punch's manual allows. Caution: its blade is sharp; keep fingers out of the slot, and lock "
      "it when idle."));
}

/// How to cut a sheet whose back is known to be off.
void compromise(FilledPages& pages, const CutCardRequest& r) {
  if (r.ticks.step_mm <= 0) return;
  const bool vertical_axis = turn_axis(r.turn, r.sheet) == TurnAxis::vertical;
  pages.paragraph(
      tr("Ticks beside the guides of edges 1 and 2 are {} mm apart{}. If the back of a sheet is "
         "known to be off, cut these two edges beside their guides, by half of the offset and to "
         "the same side, so that front and back share the error. {} seen from the back is {} seen "
         "from the front; {}. Example: back 0.5 mm too far right: put the blade 0.25 mm to the {} "
         "of the guide. The fence then sets all other cuts.",
         format_number(r.ticks.step_mm, 2),
         r.ticks.step_mm < 0.2 ? tr(", one step each") : tr(", longer ones 0.5 mm"),
         vertical_axis ? tr("Right") : tr("Down"), vertical_axis ? tr("left") : tr("up"),
         vertical_axis ? tr("up and down stay") : tr("left and right stay"),
         vertical_axis ? tr("left") : tr("right")));
}

}  // namespace

std::vector<PdfPage> cut_card_pages(const CutCardRequest& r) {
  FilledPages pages(parse_paper(american(r.sheet) ? "letter" : "a4"), kStyle);
  pages.title(tr("Cut card: {}", r.job), 5.0);
  pages.gap();
  lead(pages, r);
  pages.gap();
  const Point<PageMm> top = pages.picture(kNumbersMm + kPictureHeightMm);
  Picture(pages.drawing(), r, at(top.x, top.y + kNumbersMm + kPictureHeightMm / 2)).draw();

  pages.heading(tr("Before cutting"));
  laminating(pages, r);

  pages.heading(tr("Cuts, in this order"));
  pages.paragraph(
      tr("Blades: guard on, fingers behind the clamp, blade locked when idle. The cutter's manual "
         "and local rules come first; in a school or club, whoever is responsible for the machine "
         "decides who uses it."));
  pages.gap(0.2);
  table(pages, r.plan);
  pages.gap(0.2);
  pages.paragraph(
      tr("Fence: a finished edge lies against the fence, the blade cuts at the setting. Keep the "
         "same edge at the fence; measure the first piece before you cut the rest, and set the "
         "fence again if it is off."));
  pages.paragraph(
      tr("Square? Cut a spare sheet, turn it over left to right with the same edge at the stop: a "
         "gap at the blade shows twice the error."));
  compromise(pages, r);
  pages.heading(tr("After cutting"));
  corners(pages);
  return pages.take();
}

}  // namespace versolay
