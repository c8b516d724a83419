#include "rehearse/geometry_file.h"

#include "core/findings.h"
#include "core/json.h"
#include "rehearse/findings.h"

namespace versolay::rehearse {
namespace {

constexpr double kFarthestMm = 600.0;

double coordinate(const JsonPlace& place) { return place.number_in(-kFarthestMm, kFarthestMm); }

HoleKind hole_kind(const JsonPlace& place) {
  const std::string text = place.text();
  if (text == "punch") return HoleKind::punch;
  if (text == "prick") return HoleKind::prick;
  throw place.problem(findings::not_a_kind_of_hole());
}

Side side_of(const JsonPlace& place) {
  const std::string text = place.text();
  if (text == "recto") return Side::recto;
  if (text == "verso") return Side::verso;
  throw place.problem(findings::not_a_side());
}

}  // namespace

TargetGeometry read_geometry(const std::filesystem::path& path) {
  const Json json = read_json(path);
  const JsonPlace document(json, path.string());
  TargetGeometry geometry;
  const auto size = document.at("paper_mm").items();
  if (size.size() != 2) throw document.at("paper_mm").problem(findings::not_a_size());
  geometry.paper = paper_of_size(size[0].number_in(50, kFarthestMm), size[1].number_in(50, 600));
  const auto turn = turn_from(document.at("turn").text());
  if (!turn) throw document.at("turn").problem(findings::not_a_turn());
  geometry.turn = *turn;
  for (const JsonPlace& mark : document.at("marks").items()) {
    geometry.marks.push_back({mark.at("id").text(),
                              side_of(mark.at("side")),
                              {coordinate(mark.at("x_mm")), coordinate(mark.at("y_mm"))},
                              mark.at("kind").text()});
  }
  for (const JsonPlace& hole : document.at("holes").items()) {
    geometry.holes.push_back({hole.at("id").text(),
                              {coordinate(hole.at("x_mm")), coordinate(hole.at("y_mm"))},
                              hole_kind(hole.at("kind")),
                              hole.at("clear_radius_mm").number_in(0, 100)});
  }
  return geometry;
}

}  // namespace versolay::rehearse
