#include "target/waste_geometry.h"

#include <cmath>

namespace versolay {
namespace {

using Eigen::Vector2d;

// Of the middle of a place where an edge is read: farther from the corners than the length over
// which it is read.
constexpr double kEdgeFromCornerMm = 9.0;

Vector2d outward_of(const std::string& edge) {
  if (edge == "top") return {0.0, -1.0};
  if (edge == "bottom") return {0.0, 1.0};
  return edge == "left" ? Vector2d(-1.0, 0.0) : Vector2d(1.0, 0.0);
}

void add_tags(TargetGeometry& geometry, const WasteLayout& layout) {
  const double x = geometry.paper.width_mm / 2 - layout.tag_x_mm;
  const double y = geometry.paper.height_mm / 2 - layout.tag_y_mm;
  const Point<PageMm> places[4] = {{-x, -y}, {x, -y}, {x, y}, {-x, y}};
  for (const Side side : {Side::recto, Side::verso}) {
    for (int i = 0; i < 4; ++i) {
      geometry.marks.push_back({std::string(to_string(side)) + "-tag-" + std::to_string(i), side,
                                places[i], MarkKind::tag, i});
    }
  }
}

}  // namespace

std::vector<WastePlace> waste_places(const Paper& paper, double frame_mm, const std::string& edge,
                                     WasteLattice lattice) {
  const Vector2d outward = outward_of(edge);
  const bool across = outward.x() != 0.0;
  const double inset = frame_mm + kWasteRing.outer_radius_mm;
  const double half = (across ? paper.width_mm : paper.height_mm) / 2;
  const double room = (across ? paper.height_mm : paper.width_mm) - 2 * inset;
  const bool corners = lattice == WasteLattice::from_corners;
  const int steps = corners ? static_cast<int>(std::floor(room / kLeastWastePitchMm))
                            : 2 * static_cast<int>(std::floor(room / 2 / kLeastWastePitchMm));
  const double length = corners ? room : steps * kLeastWastePitchMm;
  std::vector<WastePlace> places;
  for (int k = 0; k <= steps; ++k) {
    const double along = length * k / steps - length / 2;
    const Vector2d at =
        (half - inset) * outward + along * Vector2d(across ? 0.0 : 1.0, across ? 1.0 : 0.0);
    places.push_back({edge + "-" + std::to_string(k + 1), Point<RectoMm>::from(at), outward, along,
                      corners && (k == 0 || k == steps)});
  }
  return places;
}

TargetGeometry waste_geometry(const Paper& paper, Turn turn, const WasteLayout& layout) {
  TargetGeometry geometry;
  geometry.paper = paper;
  geometry.turn = turn;
  geometry.ring = kWasteRing;
  geometry.tag_module_mm = kWasteTagModuleMm;
  geometry.code_module_mm = kWasteCodeModuleMm;
  const auto verso = verso_from_recto(geometry.axis());
  for (const std::string edge : {"top", "bottom", "left", "right"}) {
    const bool left_right = edge == "left" || edge == "right";
    const bool rings = left_right ? layout.rows_left_right : layout.rows_top_bottom;
    const bool corners_listed = left_right && layout.rows_top_bottom;
    const double length = left_right ? paper.height_mm : paper.width_mm;
    bool read_here = true;  // the edge, at every second place
    for (const WastePlace& place : waste_places(paper, layout.frame_mm, edge, layout.lattice)) {
      if (rings && !(place.corner && corners_listed)) {
        geometry.marks.push_back(
            {"recto-" + place.id, Side::recto, relabel<PageMm>(place.at), MarkKind::ring});
        geometry.marks.push_back(
            {"verso-" + place.id, Side::verso, relabel<PageMm>(verso(place.at)), MarkKind::ring});
      }
      if (read_here && std::abs(place.along_mm) <= length / 2 - kEdgeFromCornerMm) {
        geometry.edges.push_back(
            {place.id, place.at, place.outward, layout.frame_mm + kWasteRing.outer_radius_mm});
      }
      read_here = !read_here;
    }
  }
  add_tags(geometry, layout);
  return geometry;
}

}  // namespace versolay
