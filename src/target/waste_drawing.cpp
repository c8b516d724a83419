#include "target/waste_drawing.h"

#include <algorithm>

#include "target/data_matrix.h"
#include "target/geometry.h"
#include "target/identity.h"
#include "target/module_drawing.h"

namespace versolay {
namespace {

constexpr double kCircleLineMm = 0.12;
constexpr double kLookThroughRadiusMm = 1.5;  // of all of it; a place for a ring has as much

}  // namespace

LookThroughSize look_through_size(double oversize_mm) {
  const double outer_gap = oversize_mm > 0 ? std::clamp(oversize_mm, 0.3, 1.0) : 0.5;
  return {kLookThroughRadiusMm - kCircleLineMm - outer_gap, outer_gap / 2, outer_gap};
}

Drawing waste_marks_drawing(const WastePlan& plan, const ProductionPage& page,
                            const LookThroughSize& look_through) {
  const Side side = page.identity.side;
  const TargetGeometry geometry =
      waste_geometry(page.identity.paper, page.identity.turn, plan.layout);
  const auto on_page = [&](const Point<RectoMm>& p) {
    return side == Side::recto ? relabel<PageMm>(p)
                               : relabel<PageMm>(verso_from_recto(geometry.axis())(p));
  };
  Drawing drawing;
  for (const Mark& mark : geometry.marks) {
    if (mark.kind != MarkKind::tag || mark.side != side) continue;
    add_modules(drawing, tag_modules(tag_number({0, side, mark.number, true})), mark.at,
                geometry.tag_module_mm);
  }
  const ModuleGrid code = data_matrix_modules(waste_code_digits(page));
  for (const WasteCodePlace& place : plan.codes) {
    add_modules(drawing, place.upright ? turned(code) : code, on_page(place.at),
                geometry.code_module_mm);
  }
  for (const Point<RectoMm>& ring : plan.rings) {
    drawing.push_back(
        Disc{on_page(ring), kWasteRing.outer_radius_mm, kWasteRing.inner_radius_mm, {}});
  }
  for (const Point<RectoMm>& mark : plan.look_through) {
    if (side == Side::verso) {
      drawing.push_back(Disc{on_page(mark), look_through.dot_radius_mm, 0.0, {}});
      continue;
    }
    for (const double gap : {look_through.inner_gap_mm, look_through.outer_gap_mm}) {
      const double inner = look_through.dot_radius_mm + gap;
      drawing.push_back(Disc{on_page(mark), inner + kCircleLineMm, inner, {}});
    }
  }
  return drawing;
}

}  // namespace versolay
