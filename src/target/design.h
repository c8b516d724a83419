// A target design: the data of calib_targets/*.json, before it meets a paper size.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "target/target_geometry.h"

namespace versolay {

/// A place given from a corner, the middle of an edge, or the centre of a PORTRAIT page:
/// anchor (-1 | 0 | 1 for left|centre|right, top|centre|bottom), then mm right and down from it.
struct AnchoredPlace {
  double anchor_x = 0.0;
  double anchor_y = 0.0;
  Eigen::Vector2d from_anchor_mm{0.0, 0.0};
};

/// Rings around a hole. Angles are from `inward`, clockwise as seen on the recto.
struct StationPattern {
  double clear_radius_mm = 0.0;
  double ring_distance_mm = 0.0;
  std::vector<double> ring_angles_deg;
};

struct DesignedHole {
  std::string id;
  HoleKind kind = HoleKind::punch;
  AnchoredPlace at;
  Eigen::Vector2d inward{0.0, 1.0};
  int number = 0;  // pricks: 1 to 8
};

struct DesignedPlace {
  std::string id;
  AnchoredPlace at;
};

struct DesignedVernier {
  std::string id;
  ScaleAxis axis = ScaleAxis::across;
  AnchoredPlace at;  // seen from the back
};

/// Rings in a row along an edge: at `along_mm` from the middle of the edge.
struct DesignedRuler {
  std::string edge;  // "top", "bottom", "left", "right"
  double inset_mm = 0.0;
  std::vector<double> along_mm;
};

struct TargetDesign {
  std::string name;
  double smallest_mm[2] = {0.0, 0.0};  // width, height of a portrait page that it fits
  double largest_mm[2] = {0.0, 0.0};
  RingSize ring;
  double tag_module_mm = 0.0;
  double code_module_mm = 0.0;
  StationPattern punch;
  StationPattern prick;
  std::vector<DesignedPlace> tags;  // in the order of their position numbers
  std::vector<DesignedPlace> codes;
  std::vector<DesignedRuler> rulers;
  std::vector<DesignedHole> holes;
  std::vector<DesignedVernier> verniers;
};

/// Reads and checks a design. Throws Error with the place in the file.
TargetDesign read_design(const std::filesystem::path& path);

/// The design for a paper: <name>.json when the paper has a name, else custom.json.
/// Throws Error when the paper is smaller or larger than the design allows.
TargetDesign design_for(const Paper& paper);

}  // namespace versolay
