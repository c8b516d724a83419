// Finds room for the marks in the waste of a production sheet.
#pragma once

#include <optional>
#include <vector>

#include "core/drawing.h"
#include "target/waste_geometry.h"

namespace versolay {

/// Everything is in the view of the recto; places on the verso are given as seen through the sheet.
struct WasteRoom {
  Paper paper;
  double frame_mm = 0.0;  // white at every edge on both sides, a multiple of 0.1 mm
  PageRect inked;         // the cards of both sides with their bleed
};

/// Which pairs of opposite edges have waste enough for what.
struct WasteEdges {
  bool rows_top_bottom = false;
  bool rows_left_right = false;
  bool tags_top_bottom = false;  // else at left and right
};

/// @return nullopt when no two opposite edges have 6.2 mm for tags and codes.
std::optional<WasteEdges> waste_edges(const WasteRoom& room);

/// The area inside the rows of rings on the edges with the tags: guides and words stay in it.
PageRect area_inside_rows(const WasteRoom& room, const WasteEdges& edges);

/// A code on the recto, lying along its edge.
struct WasteCodePlace {
  Point<RectoMm> at;
  bool upright = false;  // turned by a quarter, along a vertical edge
};

struct WastePlan {
  WasteLayout layout;
  std::vector<Point<RectoMm>> rings;
  std::vector<WasteCodePlace> codes;         // one beside each tag
  std::vector<Point<RectoMm>> look_through;  // marks for the eye, up to two along an edge
  std::vector<PageRect> taken;               // by tags and codes
};

/// Tags and codes: at the same places of both sides and symmetrical about both axes of the page.
/// @param obstacles  in the waste of either side (guides, words).
/// @return nullopt without room for four tags with their codes, or for 16 rings.
std::optional<WastePlan> plan_waste_marks(const WasteRoom& room, const WasteEdges& edges,
                                          const std::vector<PageRect>& obstacles);

/// The tags and codes alone, to place the words between them; nullopt without room.
std::optional<std::vector<PageRect>> waste_tag_places(const WasteRoom& room,
                                                      const WasteEdges& edges,
                                                      const std::vector<PageRect>& obstacles);

}  // namespace versolay
