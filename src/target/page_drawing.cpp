#include "target/page_drawing.h"

#include <cmath>

#include "core/numbers.h"
#include "core/translation.h"
#include "target/eye_scales.h"
#include "target/geometry.h"
#include "target/identity.h"
#include "target/module_drawing.h"
#include "target/modules.h"

namespace versolay {
namespace {

using P = Point<PageMm>;

// Words and bars stay within 60 mm of the centre, the room that every design leaves free on
// portrait and on landscape pages.
constexpr double kHairMm = 0.12;
constexpr double kBarMm = 100.0;

void add_box(Drawing& drawing, P from, P to) {
  drawing.push_back(Polygon{{from, {to.x, from.y}, to, {from.x, to.y}}, {}});
}

void add_marks(Drawing& drawing, const TargetGeometry& geometry, const PageIdentity& identity) {
  for (const Mark& mark : geometry.marks) {
    if (mark.side != identity.side) continue;
    switch (mark.kind) {
      case MarkKind::ring:
        drawing.push_back(
            Disc{mark.at, geometry.ring.outer_radius_mm, geometry.ring.inner_radius_mm, {}});
        break;
      case MarkKind::tag:
        add_modules(drawing,
                    tag_modules(tag_number(
                        {tag_slot_of_sheet(identity.sheet), identity.side, mark.number})),
                    mark.at, geometry.tag_module_mm);
        break;
      case MarkKind::code:
        add_modules(drawing, code_modules(code_text(identity)), mark.at, geometry.code_module_mm);
        break;
    }
  }
}

void add_hole_places(Drawing& drawing, const TargetGeometry& geometry, Side side) {
  for (const HolePlace& hole : geometry.holes) {
    const P centre = side == Side::recto
                         ? relabel<PageMm>(hole.at)
                         : relabel<PageMm>(verso_from_recto(geometry.axis())(hole.at));
    if (hole.kind == HoleKind::punch) {
      drawing.push_back(CircleOutline{centre, hole.clear_radius_mm, kHairMm, 0.8, {0.6}});
    } else {  // numbered, because the order matters: see the instructions
      drawing.push_back(Text{{centre.x + 3.4, centre.y + 5.2},
                             std::to_string(hole.number),
                             2.4,
                             Align::left,
                             0.0,
                             false,
                             {}});
      add_graticule(drawing, centre, side);
    }
  }
}

/// Only the back is named: the verniers are read from there.
void add_verniers(Drawing& drawing, const TargetGeometry& geometry, Side side) {
  for (const VernierPlace& vernier : geometry.verniers) {
    add_vernier(drawing, vernier, side, geometry.axis());
    if (side == Side::recto) continue;
    const double below = vernier.axis == ScaleAxis::across ? 7.2 : 9.2;
    drawing.push_back(
        Text{{vernier.at.x, vernier.at.y + below}, vernier.id, 2.4, Align::centre, 0.0, false, {}});
  }
}

/// A bar of exactly 100 mm between the outer faces of its end ticks.
void add_check_bars(Drawing& drawing) {
  const double half = kBarMm / 2;
  const double tick = 2.5;
  const double y = 57.0;
  const double x = -52.0;
  const auto line = [&](P a, P b) { drawing.push_back(Polyline{{a, b}, kHairMm, false, 0.0, {}}); };
  line({-half, y}, {half, y});
  line({x, -half}, {x, half});
  for (const double end : {-half, half}) {
    const double inner = end - std::copysign(kHairMm / 2, end);  // outer faces 100 mm apart
    line({inner, y - tick}, {inner, y + tick});
    line({x - tick, inner}, {x + tick, inner});
  }
  drawing.push_back(Text{{0.0, y - 1.5},
                         tr("This bar is 100 mm long when the page is printed at actual size"),
                         2.6,
                         Align::centre,
                         0.0,
                         false,
                         {}});
  drawing.push_back(Text{{x - 1.5, 0.0}, "100 mm", 2.6, Align::centre, -90.0, false, {}});
}

/// Arrow to the top of the page; a small mark in the middle of each punched edge for the punch.
void add_page_up(Drawing& drawing, const TargetGeometry& geometry) {
  const double top = -51.0;
  drawing.push_back(Polygon{{{50.0, top - 9.0}, {53.5, top - 3.0}, {46.5, top - 3.0}}, {}});
  add_box(drawing, {49.2, top - 3.2}, {50.8, top + 2.0});
  drawing.push_back(Text{{50.0, top + 5.5}, tr("top"), 3.4, Align::centre, 0.0, true, {}});

  const bool landscape = geometry.paper.width_mm > geometry.paper.height_mm;
  const double half = std::max(geometry.paper.width_mm, geometry.paper.height_mm) / 2;
  for (const double end : {-1.0, 1.0}) {
    const auto at = [&](double across, double from_edge) {
      const double along = end * (half - from_edge);
      return landscape ? P{along, across} : P{across, along};
    };
    drawing.push_back(Polygon{{at(0.0, 7.0), at(1.6, 11.0), at(-1.6, 11.0)}, {}});
    const P words = at(0.0, landscape == (end < 0) ? 12.6 : 15.0);
    drawing.push_back(
        Text{words, tr("middle of punch"), 2.4, Align::centre, landscape ? 90.0 : 0.0, false, {}});
  }
}

std::vector<std::string> instructions(const PageIdentity& identity, const Paper& paper) {
  const bool about_vertical = turn_axis(identity.turn, paper) == TurnAxis::vertical;
  const char* way = about_vertical ? tr("like the page of a book") : tr("over its top edge");
  const char* seen_by = about_vertical
                            ? tr("left edge to the right, the top stays at the top")
                            : tr("the top of the front is behind the bottom of the back");
  return {
      tr("1. Print at actual size (100 %). Switch off: fit to page, borderless,"),
      tr("    auto-rotate, driver duplex. Same paper type and quality on both sides."),
      tr("2. Let the front dry. Turn the sheet {}:", way),
      tr("    {}. Print the back. Let it dry.", seen_by),
      tr("3. Then make the holes: office two-hole punch, once on each short edge,"),
      tr("    inside the dashed circles (4 holes), or a pin straight down through"),
      tr("    the middle of the nets of pale lines 1 to 4, on thick card;"),
      tr("    then turn the sheet round on the table (top to you) and prick 5 to 8."),
      tr("4. Scan both sides of every sheet on the glass, with BLACK card behind,"),
      tr("    300 to 600 dpi, saved as PNG or TIFF. No cropping, no straightening."),
      tr("No scanner? Prick, then read where each hole lies in its net of lines;"),
      tr("    or hold the back against a light and read the scales V1 to V8."),
      tr("    \"versolay readings --template\" writes the table to fill in."),
  };
}

std::vector<std::string> cautions() {
  return {
      tr("Never feed a punched, pricked or torn sheet through a printer."),
      tr("Do not scan damp prints. Keep fingers clear of punch and pin;"),
      tr("children only with the person in charge."),
      tr("The makers' manuals and your local rules come first."),
  };
}

void add_words(Drawing& drawing, const PageIdentity& identity, const std::string& label,
               const Paper& paper) {
  const double left = -47.0;
  double y = -53.0;
  const auto line = [&](const std::string& words, double size, bool bold) {
    drawing.push_back(Text{{left, y}, words, size, Align::left, 0.0, bold, {}});
  };
  line(tr("Sheet {}   {}", identity.sheet, identity.side == Side::recto ? tr("FRONT") : tr("BACK")),
       8.0, true);
  y += 6.5;
  line(tr("versolay target, {} x {} mm, run {}, {} turn", format_number(paper.width_mm, 2),
          format_number(paper.height_mm, 2), identity.run, to_string(identity.turn)),
       3.0, false);
  y += 4.5;
  if (!label.empty()) line(label, 3.0, false);
  y = -35.0;
  for (const std::string& words : instructions(identity, paper)) {
    line(words, 2.6, false);
    y += 4.4;
  }
  y += 2.6;
  for (const std::string& words : cautions()) {
    line(words, 2.5, true);
    y += 4.0;
  }
}

}  // namespace

Drawing target_page(const TargetGeometry& geometry, const PageIdentity& identity,
                    const std::string& label) {
  Drawing drawing;
  add_hole_places(drawing, geometry, identity.side);
  add_marks(drawing, geometry, identity);
  add_verniers(drawing, geometry, identity.side);
  add_check_bars(drawing);
  add_page_up(drawing, geometry);
  add_words(drawing, identity, label, geometry.paper);
  return drawing;
}

}  // namespace versolay
