// The geometry of a target: what is printed where, and where the holes go.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "versolay/frames.h"
#include "versolay/paper.h"

namespace versolay {

std::string_view to_string(Side side);  // "recto", "verso"

enum class MarkKind { ring, tag, code };
std::string_view to_string(MarkKind kind);

/// Something printed that a scan is read by. Rings measure; tags and codes identify.
struct Mark {
  std::string id;
  Side side = Side::recto;
  Point<PageMm> at;  // centre, in the view of its own side
  MarkKind kind = MarkKind::ring;
  int number = 0;  // tags and codes: position on the page, from 0
};

enum class HoleKind { punch, prick };
std::string_view to_string(HoleKind kind);

/// A clear disc in which a hole is to be made after printing.
struct HolePlace {
  std::string id;
  HoleKind kind = HoleKind::punch;
  Point<RectoMm> at;
  double clear_radius_mm = 0.0;
  int number = 0;  // pricks: printed beside it, in the order in which they are made; 0: a punch

  /// A pin leans with the hand that holds it. Half of the pricks are made after the sheet was
  /// rotated by 180 degrees: +1 for the first four, -1 for the others, 0 for a punch. Their places
  /// are chosen so that this sign is orthogonal to shift, rotation, scale and shear.
  int pin_sign() const { return number == 0 ? 0 : number <= 4 ? 1 : -1; }
};

/// A ring from which the edge of the paper is looked for, straight outward.
struct EdgePlace {
  std::string id;  // "left-3"; edges are named as seen on the recto
  Point<RectoMm> ring;
  Eigen::Vector2d outward{0.0, 0.0};  // unit vector in the recto view
  double inset_mm = 0.0;              // of the ring from the nominal edge
};

/// Directions of a scale that is read by eye.
enum class ScaleAxis { across, down };
std::string_view to_string(ScaleAxis axis);  // "across", "down"
/// To the right, or downward, as one looks at the page.
inline Eigen::Vector2d unit_vector(ScaleAxis axis) {
  return axis == ScaleAxis::across ? Eigen::Vector2d(1.0, 0.0) : Eigen::Vector2d(0.0, 1.0);
}

/// A pair of scales, one on each side, that is read against a light: target/eye_scales.h.
struct VernierPlace {
  std::string id;  // "V1"
  ScaleAxis axis = ScaleAxis::across;
  Point<VersoMm> at;  // the middle
};

/// What a further pass of a sheet through the printer prints on a side (target/pass_marks.h). Rings
/// have the same places on both sides, each in the view of its own side.
struct PassMarks {
  int pass = 2;
  std::vector<Point<PageMm>> rings;
  Point<PageMm> recto_tag;
  Point<PageMm> verso_tag;
  const Point<PageMm>& tag(Side side) const { return side == Side::recto ? recto_tag : verso_tag; }
};

struct RingSize {
  double outer_radius_mm = 0.0;
  double inner_radius_mm = 0.0;
};

struct TargetGeometry {
  Paper paper;
  Turn turn = Turn::long_edge;
  RingSize ring;
  double tag_module_mm = 0.0;  // a tag is 8 modules of black square, 10 with its white margin
  double code_module_mm = 0.0;
  std::vector<Mark> marks;
  std::vector<HolePlace> holes;
  std::vector<EdgePlace> edges;
  std::vector<VernierPlace> verniers;
  std::vector<PassMarks> passes;  // from the second on; empty: one pass a side

  TurnAxis axis() const { return turn_axis(turn, paper); }
};

/// Which sheet of which print run a page belongs to, and which side of it.
struct PageIdentity {
  Paper paper;
  Turn turn = Turn::long_edge;
  std::string run;  // 4 characters of [0-9A-Z]
  int sheet = 1;    // 1..999
  Side side = Side::recto;
  int passes = 1;  // of the sheet through the printer, on each side
  bool operator==(const PageIdentity&) const = default;
};

}  // namespace versolay
