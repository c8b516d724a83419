#include "rehearse/punch.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

namespace versolay::rehearse {
namespace {

using Eigen::Vector2d;

constexpr double kPairToleranceMm = 1.0;

Vector2d within_disc(double radius, Random& random) {
  const double r = radius * std::sqrt(random.uniform());
  const double a = random.uniform(0.0, 2.0 * std::numbers::pi);
  return {r * std::cos(a), r * std::sin(a)};
}

Rim rough_rim(const Vector2d& centre, double radius, double roundness_um, Random& random) {
  Rim rim{centre, radius, {}, {}};
  for (std::size_t i = 0; i < 2; ++i) {
    rim.amplitude_mm[i] = random.normal(roundness_um * 1e-3);
    rim.phase_rad[i] = random.uniform(0.0, 2.0 * std::numbers::pi);
  }
  return rim;
}

std::optional<std::size_t> partner(const std::vector<HolePlace>& places, std::size_t first,
                                   const std::vector<bool>& done, double distance) {
  for (std::size_t i = first + 1; i < places.size(); ++i) {
    if (done[i] || places[i].kind != HoleKind::punch) continue;
    const double apart = (places[i].at.vec() - places[first].at.vec()).norm();
    if (std::abs(apart - distance) < kPairToleranceMm) return i;
  }
  return std::nullopt;
}

Hole punched(const HolePlace& place, const Vector2d& centre, const HoleSettings& s, TurnAxis axis,
             Random& random) {
  Hole hole{place.id, HoleKind::punch, false, {}, {}};
  hole.front = rough_rim(centre, s.punch_diameter_mm / 2.0, s.roundness_um, random);
  hole.back = seen_from_behind(hole.front, axis);
  return hole;
}

/// A pin pushed in from the front. It leans the way the hand leans: fixed to the hand, so it turns
/// with respect to the sheet when the sheet is rotated by 180 degrees.
Hole pricked(const HolePlace& place, const Vector2d& centre, const Vector2d& lean, bool turned,
             const HoleSettings& s, TurnAxis axis, Random& random) {
  Hole hole{place.id, HoleKind::prick, turned, {}, {}};
  const double radius = random.uniform(s.prick_smallest_mm, s.prick_largest_mm) / 2.0;
  hole.front = rough_rim(centre, radius, s.prick_roundness_um, random);
  Rim exit = hole.front;
  exit.centre_mm += turned ? Vector2d(-lean) : lean;
  exit.centre_mm += 1e-3 * Vector2d(random.normal(s.lean_sd_um), random.normal(s.lean_sd_um));
  exit.radius_mm *= 1.0 - s.prick_taper;
  hole.back = seen_from_behind(exit, axis);
  return hole;
}

}  // namespace

std::vector<Hole> make_holes(const std::vector<HolePlace>& places, const Passes& passes,
                             const HoleSettings& s, Random random) {
  const bool punch = s.made == HolesMade::punched || s.made == HolesMade::both;
  const bool prick = s.made == HolesMade::pricked || s.made == HolesMade::both;
  const auto aim = [&](const HolePlace& place) { return passes.front(place.at).vec(); };
  const double lean_direction = random.uniform(0.0, 2.0 * std::numbers::pi);
  const Vector2d lean =
      s.lean_um * 1e-3 * Vector2d(std::cos(lean_direction), std::sin(lean_direction));

  std::vector<Hole> holes;
  std::vector<bool> done(places.size(), false);
  const auto pricks = std::count_if(places.begin(), places.end(), [](const HolePlace& place) {
    return place.kind == HoleKind::prick;
  });
  int pricks_made = 0;
  for (std::size_t i = 0; i < places.size(); ++i) {
    if (done[i]) continue;
    done[i] = true;
    if (places[i].kind == HoleKind::prick) {
      if (!prick) continue;
      const bool turned = s.turn_half && 2 * pricks_made++ >= pricks;
      const Vector2d at = aim(places[i]) + within_disc(s.hand_error_mm, random);
      holes.push_back(pricked(places[i], at, lean, turned, s, passes.axis, random));
      continue;
    }
    if (!punch) continue;
    const auto other = partner(places, i, done, s.punch_distance_mm);
    if (!other) {
      const Vector2d at = aim(places[i]) + within_disc(s.hand_error_mm, random);
      holes.push_back(punched(places[i], at, s, passes.axis, random));
      continue;
    }
    done[*other] = true;
    const Vector2d middle =
        (aim(places[i]) + aim(places[*other])) / 2.0 + within_disc(s.hand_error_mm, random);
    const Vector2d along = (aim(places[*other]) - aim(places[i])).normalized();
    const double tilt = random.normal(s.punch_tilt_mrad * 1e-3);
    const Vector2d half = s.punch_distance_mm / 2.0 * (Eigen::Rotation2Dd(tilt) * along);
    holes.push_back(punched(places[i], middle - half, s, passes.axis, random));
    holes.push_back(punched(places[*other], middle + half, s, passes.axis, random));
  }
  return holes;
}

}  // namespace versolay::rehearse
