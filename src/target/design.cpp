#include "target/design.h"

#include <algorithm>
#include <map>

#include "core/data_folder.h"
#include "core/findings.h"
#include "core/json.h"
#include "core/numbers.h"
#include "target/findings.h"

namespace versolay {
namespace {

AnchoredPlace place_from(const JsonPlace& json) {
  static const std::map<std::string, std::pair<int, int>> kAnchors = {
      {"top-left", {-1, -1}},   {"top", {0, -1}},   {"top-right", {1, -1}},
      {"left", {-1, 0}},        {"centre", {0, 0}}, {"right", {1, 0}},
      {"bottom-left", {-1, 1}}, {"bottom", {0, 1}}, {"bottom-right", {1, 1}}};
  const auto anchor = kAnchors.find(json.at("from").text());
  if (anchor == kAnchors.end()) throw json.at("from").problem(findings::not_an_anchor());
  return {static_cast<double>(anchor->second.first),
          static_cast<double>(anchor->second.second),
          {json.at("right_mm").number(), json.at("down_mm").number()}};
}

StationPattern station_from(const JsonPlace& json) {
  StationPattern station;
  station.clear_radius_mm = json.at("clear_radius_mm").number_in(0.5, 20.0);
  station.ring_distance_mm = json.at("ring_distance_mm").number_in(1.0, 40.0);
  for (const JsonPlace& angle : json.at("ring_angles_deg").items()) {
    station.ring_angles_deg.push_back(angle.number_in(-180.0, 180.0));
  }
  if (station.ring_angles_deg.size() < 4) {
    throw json.at("ring_angles_deg").problem(findings::too_few_rings());
  }
  return station;
}

std::vector<DesignedPlace> places_from(const JsonPlace& json) {
  std::vector<DesignedPlace> places;
  for (const JsonPlace& item : json.items()) {
    places.push_back({item.at("id").text(), place_from(item)});
  }
  return places;
}

std::vector<DesignedRuler> rulers_from(const JsonPlace& json) {
  std::vector<DesignedRuler> rulers;
  for (const JsonPlace& item : json.items()) {
    DesignedRuler ruler{item.at("edge").text(), item.at("inset_mm").number_in(5.0, 30.0), {}};
    if (ruler.edge != "top" && ruler.edge != "bottom" && ruler.edge != "left" &&
        ruler.edge != "right") {
      throw item.at("edge").problem(findings::not_an_edge());
    }
    for (const JsonPlace& along : item.at("along_mm").items()) {
      ruler.along_mm.push_back(along.number());
    }
    rulers.push_back(std::move(ruler));
  }
  return rulers;
}

int number_of_prick(const JsonPlace& json) {
  const int number = json.integer();
  if (number < 1 || number > 8) throw json.problem(findings::not_a_mark_number());
  return number;
}

DesignedHole hole_from(const JsonPlace& json) {
  DesignedHole hole;
  hole.id = json.at("id").text();
  const std::string kind = json.at("kind").text();
  if (kind != "punch" && kind != "prick")
    throw json.at("kind").problem(findings::not_a_hole_kind());
  hole.kind = kind == "punch" ? HoleKind::punch : HoleKind::prick;
  hole.at = place_from(json);
  if (hole.kind == HoleKind::prick) hole.number = number_of_prick(json.at("number"));
  const std::string inward = json.text_or("inward", "down");
  if (inward != "down" && inward != "up")
    throw json.at("inward").problem(findings::not_a_way_inward());
  hole.inward = {0.0, inward == "down" ? 1.0 : -1.0};
  return hole;
}

DesignedVernier vernier_from(const JsonPlace& json) {
  const std::string direction = json.at("direction").text();
  if (direction != "across" && direction != "down") {
    throw json.at("direction").problem(findings::not_a_scale_direction());
  }
  return {json.at("id").text(), direction == "across" ? ScaleAxis::across : ScaleAxis::down,
          place_from(json)};
}

void size_from(const JsonPlace& json, double (&size_mm)[2]) {
  const auto items = json.items();
  if (items.size() != 2) throw json.problem(findings::not_a_size());
  for (std::size_t i = 0; i < 2; ++i) size_mm[i] = items[i].number_in(50.0, 1000.0);
}

}  // namespace

TargetDesign read_design(const std::filesystem::path& path) {
  const Json document = read_json(path);
  const JsonPlace root(document, path.string());
  require_schema(root, "target_design", 1);
  TargetDesign design;
  design.name = path.stem().string();
  size_from(root.at("smallest_paper_mm"), design.smallest_mm);
  size_from(root.at("largest_paper_mm"), design.largest_mm);
  design.ring.outer_radius_mm = root.at("ring").at("outer_radius_mm").number_in(0.5, 10.0);
  design.ring.inner_radius_mm =
      root.at("ring").at("inner_radius_mm").number_in(0.1, design.ring.outer_radius_mm);
  design.tag_module_mm = root.at("tag_module_mm").number_in(0.4, 3.0);
  design.code_module_mm = root.at("code_module_mm").number_in(0.3, 3.0);
  design.punch = station_from(root.at("punch"));
  design.prick = station_from(root.at("prick"));
  design.tags = places_from(root.at("tags"));
  design.codes = places_from(root.at("codes"));
  design.rulers = rulers_from(root.at("rulers"));
  for (const JsonPlace& item : root.at("holes").items()) design.holes.push_back(hole_from(item));
  for (const JsonPlace& item : root.at("verniers").items()) {
    design.verniers.push_back(vernier_from(item));
  }
  if (design.tags.size() < 2 || design.tags.size() > 8) {
    throw root.at("tags").problem(findings::wrong_number_of_tags());
  }
  return design;
}

TargetDesign design_for(const Paper& paper) {
  const bool named = !paper.name.ends_with("mm");
  TargetDesign design =
      read_design(calib_targets_folder() / ((named ? paper.name : "custom") + ".json"));
  const double across = std::min(paper.width_mm, paper.height_mm);
  const double along = std::max(paper.width_mm, paper.height_mm);
  const auto fits = [](double size, double smallest, double largest) {
    return size >= smallest - 0.01 && size <= largest + 0.01;
  };
  if (!fits(across, design.smallest_mm[0], design.largest_mm[0]) ||
      !fits(along, design.smallest_mm[1], design.largest_mm[1])) {
    throw BadField("paper", findings::paper_not_fit_for_target(
                                Length{design.smallest_mm[0]}, Length{design.smallest_mm[1]},
                                Length{design.largest_mm[0]}, Length{design.largest_mm[1]}));
  }
  return design;
}

}  // namespace versolay
