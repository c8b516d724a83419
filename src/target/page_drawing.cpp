#include "target/page_drawing.h"

#include <cmath>

#include "core/expect.h"
#include "target/eye_scales.h"
#include "target/geometry.h"
#include "target/identity.h"
#include "target/module_drawing.h"
#include "target/modules.h"
#include "target/pass_marks.h"
#include "target/qr_code.h"

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
        add_modules(drawing, qr_modules(code_text(identity)), mark.at, geometry.code_module_mm);
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
      drawing.push_back(Text{.at = {centre.x + 3.4, centre.y + 5.2},
                             .utf8 = std::to_string(hole.number),
                             .size_mm = 2.4});
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
    drawing.push_back(Text{.at = {vernier.at.x, vernier.at.y + below},
                           .utf8 = vernier.id,
                           .size_mm = 2.4,
                           .align = Align::centre});
  }
}

/// A bar of exactly 100 mm between the outer faces of its end ticks.
void add_check_bars(Drawing& drawing, const std::string& scale_bar) {
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
  drawing.push_back(
      Text{.at = {0.0, y - 1.5}, .utf8 = scale_bar, .size_mm = 2.6, .align = Align::centre});
  drawing.push_back(Text{.at = {x - 1.5, 0.0},
                         .utf8 = "100 mm",
                         .size_mm = 2.6,
                         .align = Align::centre,
                         .angle_deg = -90.0});
}

/// Arrow to the top of the page; a small mark in the middle of each punched edge for the punch.
void add_page_up(Drawing& drawing, const TargetGeometry& geometry, const TargetPageWords& words) {
  const double top = -51.0;
  drawing.push_back(Polygon{{{50.0, top - 9.0}, {53.5, top - 3.0}, {46.5, top - 3.0}}, {}});
  add_box(drawing, {49.2, top - 3.2}, {50.8, top + 2.0});
  drawing.push_back(Text{.at = {50.0, top + 5.5},
                         .utf8 = words.top,
                         .size_mm = 3.4,
                         .align = Align::centre,
                         .bold = true});

  const bool landscape = geometry.paper.width_mm > geometry.paper.height_mm;
  const double half = std::max(geometry.paper.width_mm, geometry.paper.height_mm) / 2;
  for (const double end : {-1.0, 1.0}) {
    const auto at = [&](double across, double from_edge) {
      const double along = end * (half - from_edge);
      return landscape ? P{along, across} : P{across, along};
    };
    drawing.push_back(Polygon{{at(0.0, 7.0), at(1.6, 11.0), at(-1.6, 11.0)}, {}});
    const P place = at(0.0, landscape == (end < 0) ? 12.6 : 15.0);
    drawing.push_back(Text{.at = place,
                           .utf8 = words.middle_of_punch,
                           .size_mm = 2.4,
                           .align = Align::centre,
                           .angle_deg = landscape ? 90.0 : 0.0});
  }
}

void add_words(Drawing& drawing, const TargetPageWords& words) {
  const double left = -47.0;
  double y = -53.0;
  const auto line = [&](const std::string& text, double size, bool bold) {
    drawing.push_back(Text{.at = {left, y}, .utf8 = text, .size_mm = size, .bold = bold});
  };
  line(words.heading, 8.0, true);
  y += 6.5;
  line(words.identity, 3.0, false);
  y += 4.5;
  if (!words.label.empty()) line(words.label, 3.0, false);
  y = -35.0;
  for (const std::string& text : words.instructions) {
    line(text, 2.6, false);
    y += 4.4;
  }
  y += 2.6;
  for (const std::string& text : words.cautions) {
    line(text, 2.5, true);
    y += 4.0;
  }
}

}  // namespace

Drawing pass_page(const TargetGeometry& geometry, int pass, Side side, const PassPageWords& words) {
  expect(pass >= 2 && pass <= 1 + static_cast<int>(geometry.passes.size()));
  const PassMarks& marks = geometry.passes[static_cast<std::size_t>(pass - 2)];
  Drawing drawing;
  for (const P& ring : marks.rings) {
    drawing.push_back(Disc{ring, geometry.ring.outer_radius_mm, geometry.ring.inner_radius_mm, {}});
  }
  const P& tag = marks.tag(side);
  add_modules(drawing, pass_tag_modules(pass_tag_number({pass, side})), tag, kPassTagModuleMm);
  drawing.push_back(
      Text{.at = {tag.x, tag.y + 6.0}, .utf8 = words.pass, .size_mm = 2.2, .align = Align::centre});
  return drawing;
}

Drawing target_page(const TargetGeometry& geometry, const PageIdentity& identity,
                    const TargetPageWords& words) {
  Drawing drawing;
  add_hole_places(drawing, geometry, identity.side);
  add_marks(drawing, geometry, identity);
  add_verniers(drawing, geometry, identity.side);
  add_check_bars(drawing, words.scale_bar);
  add_page_up(drawing, geometry, words);
  add_words(drawing, words);
  return drawing;
}

}  // namespace versolay
