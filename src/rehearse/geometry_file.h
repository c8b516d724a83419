// The geometry file that goes with a target: what was printed where.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "versolay/paper.h"

namespace versolay::rehearse {

enum class HoleKind { punch, prick };

/// A place where a hole is asked for, in the recto view.
struct HolePlace {
  std::string id;
  Point<RectoMm> at;
  HoleKind kind = HoleKind::punch;
  double clear_radius_mm = 0.0;
};

/// A printed mark; kept for judging the pictures, not used to make them.
struct MarkPlace {
  std::string id;
  Side side = Side::recto;
  Point<PageMm> at;
  std::string kind;
};

struct TargetGeometry {
  Paper paper;
  Turn turn = Turn::long_edge;
  std::vector<MarkPlace> marks;
  std::vector<HolePlace> holes;
};

/// Throws Error, naming the place in the file, when something is missing or of the wrong kind.
TargetGeometry read_geometry(const std::filesystem::path& path);

}  // namespace versolay::rehearse
