#include "target/geometry.h"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

#include "core/numbers.h"
#include "target/design.h"
#include "target/pass_marks.h"

namespace versolay {
namespace {

constexpr int kDecimals = 6;  // nanometres: finer than any printer, coarser than rounding noise

using Eigen::Vector2d;

/// Turns anchored places of the portrait design into places of the page.
class Placer {
 public:
  explicit Placer(const Paper& paper)
      : landscape_(paper.width_mm > paper.height_mm),
        half_(landscape_ ? Vector2d(paper.height_mm / 2, paper.width_mm / 2)
                         : Vector2d(paper.width_mm / 2, paper.height_mm / 2)) {}

  Vector2d place(const AnchoredPlace& p) const {
    return oriented(Vector2d(p.anchor_x * half_.x(), p.anchor_y * half_.y()) + p.from_anchor_mm);
  }
  Vector2d on_ruler(const DesignedRuler& ruler, double along_mm) const {
    const Vector2d out = outward_in_portrait(ruler);
    const Vector2d along(std::abs(out.y()), std::abs(out.x()));
    return oriented(out.cwiseProduct(half_) - ruler.inset_mm * out + along_mm * along);
  }
  Vector2d outward(const DesignedRuler& ruler) const {
    return oriented(outward_in_portrait(ruler));
  }
  Vector2d oriented(const Vector2d& portrait) const {
    return landscape_ ? Vector2d(portrait.y(), portrait.x()) : portrait;
  }

 private:
  static Vector2d outward_in_portrait(const DesignedRuler& ruler) {
    if (ruler.edge == "top") return {0.0, -1.0};
    if (ruler.edge == "bottom") return {0.0, 1.0};
    return ruler.edge == "left" ? Vector2d(-1.0, 0.0) : Vector2d(1.0, 0.0);
  }

  bool landscape_;
  Vector2d half_;  // of the portrait page
};

class Builder {
 public:
  Builder(const TargetDesign& design, const Paper& paper, Turn turn)
      : design_(design), placer_(paper) {
    geometry_.paper = paper;
    geometry_.turn = turn;
    geometry_.ring = design.ring;
    geometry_.tag_module_mm = design.tag_module_mm;
    geometry_.code_module_mm = design.code_module_mm;
  }

  TargetGeometry build() {
    for (const DesignedHole& hole : design_.holes) add_station(hole);
    for (const DesignedRuler& ruler : design_.rulers) add_ruler(ruler);
    for (const DesignedVernier& vernier : design_.verniers) add_vernier_place(vernier);
    add_on_both_sides(design_.tags, MarkKind::tag);
    add_on_both_sides(design_.codes, MarkKind::code);
    return std::move(geometry_);
  }

 private:
  /// Adds a ring to the recto and the ring straight behind it to the verso.
  void add_ring(const std::string& name, const Vector2d& recto) {
    const auto verso = verso_from_recto(geometry_.axis())(Point<RectoMm>::from(recto));
    geometry_.marks.push_back(
        {"recto-" + name, Side::recto, Point<PageMm>::from(recto), MarkKind::ring});
    geometry_.marks.push_back(
        {"verso-" + name, Side::verso, relabel<PageMm>(verso), MarkKind::ring});
  }

  void add_station(const DesignedHole& hole) {
    const StationPattern& pattern = hole.kind == HoleKind::punch ? design_.punch : design_.prick;
    const Vector2d centre = placer_.place(hole.at);
    const Vector2d inward = placer_.oriented(hole.inward);
    for (std::size_t i = 0; i < pattern.ring_angles_deg.size(); ++i) {
      const double angle = pattern.ring_angles_deg[i] * std::numbers::pi / 180.0;
      Eigen::Matrix2d clockwise;
      clockwise << std::cos(angle), -std::sin(angle), std::sin(angle), std::cos(angle);
      const Vector2d at = centre + pattern.ring_distance_mm * (clockwise * inward);
      add_ring(hole.id + "-" + std::to_string(i + 1), at);
    }
    geometry_.holes.push_back(
        {hole.id, hole.kind, Point<RectoMm>::from(centre), pattern.clear_radius_mm, hole.number});
  }

  void add_ruler(const DesignedRuler& ruler) {
    for (std::size_t i = 0; i < ruler.along_mm.size(); ++i) {
      const std::string id = ruler.edge + "-" + std::to_string(i + 1);
      const Vector2d ring = placer_.on_ruler(ruler, ruler.along_mm[i]);
      add_ring(id, ring);
      geometry_.edges.push_back(
          {id, Point<RectoMm>::from(ring), placer_.outward(ruler), ruler.inset_mm});
    }
  }

  void add_vernier_place(const DesignedVernier& vernier) {
    const Vector2d along = placer_.oriented(unit_vector(vernier.axis));
    geometry_.verniers.push_back({vernier.id, along.x() > 0.5 ? ScaleAxis::across : ScaleAxis::down,
                                  Point<VersoMm>::from(placer_.place(vernier.at))});
  }

  void add_on_both_sides(const std::vector<DesignedPlace>& places, MarkKind kind) {
    for (Side side : {Side::recto, Side::verso}) {
      for (std::size_t i = 0; i < places.size(); ++i) {
        const std::string id = std::string(to_string(side)) + "-" + std::string(to_string(kind)) +
                               "-" + std::to_string(i);
        geometry_.marks.push_back({id, side, Point<PageMm>::from(placer_.place(places[i].at)), kind,
                                   static_cast<int>(i)});
      }
    }
  }

  const TargetDesign& design_;
  Placer placer_;
  TargetGeometry geometry_;
};

}  // namespace

std::string_view to_string(Side side) { return side == Side::recto ? "recto" : "verso"; }

std::string_view to_string(MarkKind kind) {
  switch (kind) {
    case MarkKind::ring:
      return "ring";
    case MarkKind::tag:
      return "tag";
    case MarkKind::code:
      return "code";
  }
  return "";
}

std::string_view to_string(HoleKind kind) { return kind == HoleKind::punch ? "punch" : "prick"; }

std::string_view to_string(ScaleAxis axis) { return axis == ScaleAxis::across ? "across" : "down"; }

TargetGeometry target_geometry(const Paper& paper, Turn turn, int passes) {
  TargetGeometry geometry = Builder(design_for(paper), paper, turn).build();
  geometry.passes = pass_marks(geometry, passes);
  return geometry;
}

namespace {

Json json_of(const PassMarks& pass) {
  Json marks = Json::array();
  for (const Side side : {Side::recto, Side::verso}) {
    const std::string prefix = std::string(to_string(side)) + "-";
    const auto add = [&](const std::string& id, const Point<PageMm>& at, MarkKind kind) {
      marks.push_back({{"id", prefix + id},
                       {"side", to_string(side)},
                       {"x_mm", rounded(at.x, kDecimals)},
                       {"y_mm", rounded(at.y, kDecimals)},
                       {"kind", to_string(kind)},
                       {"pass", pass.pass}});
    };
    for (std::size_t i = 0; i < pass.rings.size(); ++i) {
      add(pass_ring_id(pass.pass, i), pass.rings[i], MarkKind::ring);
    }
    add(fmt::format("pass-{}-tag", pass.pass), pass.tag(side), MarkKind::tag);
  }
  return marks;
}

}  // namespace

Json geometry_json(const TargetGeometry& geometry) {
  Json marks = Json::array();
  for (const Mark& mark : geometry.marks) {
    marks.push_back({{"id", mark.id},
                     {"side", to_string(mark.side)},
                     {"x_mm", rounded(mark.at.x, kDecimals)},
                     {"y_mm", rounded(mark.at.y, kDecimals)},
                     {"kind", to_string(mark.kind)}});
  }
  for (const PassMarks& pass : geometry.passes) {
    for (Json& mark : json_of(pass)) marks.push_back(std::move(mark));
  }
  Json holes = Json::array();
  for (const HolePlace& hole : geometry.holes) {
    holes.push_back({{"id", hole.id},
                     {"x_mm", rounded(hole.at.x, kDecimals)},
                     {"y_mm", rounded(hole.at.y, kDecimals)},
                     {"kind", to_string(hole.kind)},
                     {"clear_radius_mm", hole.clear_radius_mm}});
  }
  Json verniers = Json::array();
  for (const VernierPlace& vernier : geometry.verniers) {
    verniers.push_back({{"id", vernier.id},
                        {"direction", to_string(vernier.axis)},
                        {"x_mm", rounded(vernier.at.x, kDecimals)},
                        {"y_mm", rounded(vernier.at.y, kDecimals)}});
  }
  return {{"schema", "versolay.target_geometry/1"},
          {"paper_mm", {geometry.paper.width_mm, geometry.paper.height_mm}},
          {"turn", to_string(geometry.turn)},
          {"ring_mm",
           {{"outer_radius_mm", geometry.ring.outer_radius_mm},
            {"inner_radius_mm", geometry.ring.inner_radius_mm}}},
          {"marks", std::move(marks)},
          {"holes", std::move(holes)},
          {"verniers", std::move(verniers)}};
}

}  // namespace versolay
