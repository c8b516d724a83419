#include "target/pass_marks.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "core/expect.h"
#include "target/findings.h"
#include "versolay/result.h"

namespace versolay {
namespace {

using P = Point<PageMm>;

constexpr int kRings = 20;        // of a pass, where there is room
constexpr int kFewestRings = 14;  // so many give the lay of a pass to 5 um and 0.03 mrad
/// Two passes that are each off by 3 mm, and turned by 0.4 degrees against each other.
constexpr double kPitchMm = 12.2;
/// A pass against the first one: 3 mm, 0.4 degrees 100 mm from the middle of the page.
constexpr double kPlayMm = 3.7;
constexpr double kFromEdgeMm = 17.0;  // clear of the places where edges are looked for
constexpr double kTagClearMm = 14.7;  // from the middle of a tag to that of the nearest ring
constexpr double kTagHalfMm = 3.6;    // with its white
constexpr double kVernierHalfMm = 8.0;

double distance(const P& a, const P& b) { return (a.vec() - b.vec()).norm(); }
P half_turned(const P& p) { return {-p.x, -p.y}; }

/// Distance from a point to a box around `centre`.
double from_box(const P& p, const P& centre, double half_width, double half_height) {
  return std::hypot(std::max(0.0, std::abs(p.x - centre.x) - half_width),
                    std::max(0.0, std::abs(p.y - centre.y) - half_height));
}

/// Is a disc around `p` clear of all that the first pass prints, and of the holes, on both sides?
bool is_clear(const TargetGeometry& g, const P& p, double radius_mm) {
  const double reach = radius_mm + kPlayMm;
  if (std::abs(p.x) > g.paper.width_mm / 2 - kFromEdgeMm ||
      std::abs(p.y) > g.paper.height_mm / 2 - kFromEdgeMm) {
    return false;
  }
  for (const Mark& mark : g.marks) {
    const double half = mark.kind == MarkKind::tag ? 5 * g.tag_module_mm : 14.5 * g.code_module_mm;
    const double away = mark.kind == MarkKind::ring ? distance(p, mark.at) - g.ring.outer_radius_mm
                                                    : from_box(p, mark.at, half, half);
    if (away < reach) return false;
  }
  // Holes and scales are seen from both sides.
  for (const double x : {p.x, -p.x}) {
    for (const double y : {p.y, -p.y}) {
      for (const HolePlace& hole : g.holes) {
        if (distance({x, y}, relabel<PageMm>(hole.at)) < reach + hole.clear_radius_mm) return false;
      }
      for (const VernierPlace& vernier : g.verniers) {
        if (from_box({x, y}, relabel<PageMm>(vernier.at), kVernierHalfMm, kVernierHalfMm) < reach) {
          return false;
        }
      }
    }
  }
  // Words and check bars of page_drawing.cpp, where there are further passes.
  return from_box(p, {3.0, -35.0}, 53.0, 28.0) >= reach &&
         from_box(p, {0.0, 56.0}, 51.0, 4.0) >= reach &&
         from_box(p, {-53.0, 0.0}, 3.0, 51.0) >= reach;
}

std::vector<P> free_places(const TargetGeometry& g) {
  std::vector<P> places;
  const int columns = static_cast<int>(g.paper.width_mm / kPitchMm / 2) + 1;
  const int rows = static_cast<int>(g.paper.height_mm / kPitchMm / 2) + 1;
  for (int row = -rows; row < rows; ++row) {
    for (int column = -columns; column < columns; ++column) {
      const P p{(column + 0.5) * kPitchMm, (row + 0.5) * kPitchMm};
      if (is_clear(g, p, g.ring.outer_radius_mm)) places.push_back(p);
    }
  }
  return places;
}

double nearest(const P& p, const std::vector<P>& others) {
  double least = std::numeric_limits<double>::max();
  for (const P& other : others) least = std::min(least, distance(p, other));
  return least;
}

/// The place that is farthest from all of `others`; the outermost one when there are none.
std::size_t farthest(const std::vector<P>& places, const std::vector<P>& others) {
  std::size_t best = 0;
  double most = -1.0;
  for (std::size_t i = 0; i < places.size(); ++i) {
    const double away = others.empty() ? places[i].vec().norm() : nearest(places[i], others);
    if (away > most + 1e-9) {
      most = away;
      best = i;
    }
  }
  return best;
}

/// Takes the place of a tag, and all places near it or near the place opposite, where a pass that
/// was rotated by 180 degrees would print it.
P take_tag_place(const TargetGeometry& g, std::vector<P>& places, const std::vector<P>& tags) {
  std::vector<P> candidates;
  std::copy_if(places.begin(), places.end(), std::back_inserter(candidates), [&](const P& p) {
    const double half_diagonal = kTagHalfMm * std::numbers::sqrt2;
    return is_clear(g, p, half_diagonal) && is_clear(g, half_turned(p), half_diagonal) &&
           distance(p, half_turned(p)) > 2 * kTagClearMm &&
           (tags.empty() || nearest(p, tags) > 2 * kTagClearMm);
  });
  if (candidates.empty()) throw BadField("passes", findings::no_room_for_passes());
  // Near the middle: the outer places are worth more as rings.
  const P tag = *std::min_element(candidates.begin(), candidates.end(), [](const P& a, const P& b) {
    return a.vec().norm() < b.vec().norm() - 1e-9;
  });
  std::erase_if(places, [&](const P& p) {
    return distance(p, tag) < kTagClearMm || distance(p, half_turned(tag)) < kTagClearMm;
  });
  return tag;
}

}  // namespace

std::string pass_ring_id(int pass, std::size_t ring) {
  return fmt::format("pass-{}-ring-{}", pass, ring + 1);
}

std::vector<PassMarks> pass_marks(const TargetGeometry& geometry, int passes) {
  expect(passes >= 1 && passes <= kMostPasses);
  std::vector<PassMarks> marks;
  std::vector<P> places = passes > 1 ? free_places(geometry) : std::vector<P>();
  std::vector<P> tags;
  for (int pass = 2; pass <= passes; ++pass) {
    const P tag = take_tag_place(geometry, places, tags);
    tags.push_back(tag);
    tags.push_back(half_turned(tag));
    marks.push_back({pass, {}, tag, half_turned(tag)});
  }
  // In turns, the last first the next time, so that every pass has rings all over the page.
  for (int ring = 0; ring < kRings; ++ring) {
    if (static_cast<int>(places.size()) < passes - 1) break;
    for (std::size_t turn = 0; turn < marks.size(); ++turn) {
      PassMarks& pass = marks[ring % 2 == 0 ? turn : marks.size() - 1 - turn];
      const std::size_t place = farthest(places, pass.rings);
      pass.rings.push_back(places[place]);
      places.erase(places.begin() + static_cast<std::ptrdiff_t>(place));
    }
  }
  for (const PassMarks& pass : marks) {
    if (static_cast<int>(pass.rings.size()) < kFewestRings) {
      throw BadField("passes", findings::no_room_for_passes());
    }
  }
  return marks;
}

}  // namespace versolay
