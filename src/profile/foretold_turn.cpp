#include "profile/foretold_turn.h"

#include <algorithm>

#include "profile/constant_part.h"
#include "profile/test_settings.h"
#include "stats/hotelling.h"

namespace versolay {
namespace {

constexpr double kHalfWidthConfidence = 0.95;  // of OtherTurn::half_width

/// What was foretold as the mean of a sample, with the standard error that its interval states.
stats::Sample sample_of(const OtherTurn& other) {
  stats::Sample s;
  s.n = other.sheets;
  s.dof = s.n - 1;
  s.mean = other.mean;
  const Eigen::Vector3d se = other.half_width / stats::t_half_width(s.dof, kHalfWidthConfidence);
  const Eigen::Vector3d scatter = se.array().square() * s.n * s.dof;
  s.scatter = scatter.asDiagonal();
  return s;
}

std::optional<ForetoldTurn> foretold_by(const SetUp& by, const SetUp& of) {
  const auto& other = by.profile.studies.other_turn;
  // One sheet does not know its spread, and without a spread nothing can be called a difference.
  if (!other || other->turn != of.profile.turn || other->sheets < 2) return std::nullopt;
  const stats::Sample came = mean_sample(of.profile, kComponents);
  if (came.dof < 1) return std::nullopt;
  const stats::Sample foretold = sample_of(*other);
  ForetoldTurn result;
  result.by = by.name;
  result.of = of.name;
  double smallest = 1.0;
  for (int c = 0; c < kComponents; ++c) {
    const auto k = static_cast<std::size_t>(c);
    result.foretold[k] = other->mean[c];
    result.difference[k] = stats::welch_difference(foretold, came, c, 1 - kLevel / kComponents);
    smallest = std::min(smallest, result.difference[k].p_value);
  }
  result.p_value = std::min(1.0, kComponents * smallest);
  result.agrees = result.p_value >= kLevel;
  return result;
}

}  // namespace

std::optional<ForetoldTurn> foretold_turn(const SetUp& a, const SetUp& b) {
  if (a.profile.turn == b.profile.turn) return std::nullopt;
  if (auto foretold = foretold_by(a, b)) return foretold;
  return foretold_by(b, a);
}

}  // namespace versolay
