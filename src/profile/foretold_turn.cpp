#include "profile/foretold_turn.h"

#include <algorithm>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>

#include "profile/constant_part.h"

namespace versolay {
namespace {

constexpr double kLevel = 0.05;
constexpr int kComponents = 3;
constexpr double kHalfWidthConfidence = 0.95;  // of OtherTurn::half_width

double quantile(double dof, double confidence) {
  return boost::math::quantile(boost::math::students_t(dof), 0.5 + confidence / 2);
}

/// Welch's t of two means that are known by their standard errors.
stats::Interval difference(double foretold, double foretold_se, double foretold_dof, double came,
                           double came_se, double came_dof) {
  const double a = foretold_se * foretold_se;
  const double b = came_se * came_se;
  const double dof = (a + b) * (a + b) / (a * a / foretold_dof + b * b / came_dof);
  const double se = std::sqrt(a + b);
  const double estimate = came - foretold;
  const double half = se * quantile(dof, 1 - kLevel / kComponents);
  const boost::math::students_t t(dof);
  return {estimate, estimate - half, estimate + half,
          2 * boost::math::cdf(boost::math::complement(t, std::abs(estimate) / se))};
}

std::optional<ForetoldTurn> foretold_by(const SetUp& by, const SetUp& of) {
  const auto& other = by.profile.studies.other_turn;
  // One sheet does not know its spread, and without a spread nothing can be called a difference.
  if (!other || other->turn != of.profile.turn || other->sheets < 2) return std::nullopt;
  const MeanSource source = mean_source(of.profile);
  if (source.dof < 1) return std::nullopt;
  ForetoldTurn result;
  result.by = by.name;
  result.of = of.name;
  const double dof = other->sheets - 1;
  double smallest = 1.0;
  for (int c = 0; c < kComponents; ++c) {
    const auto k = static_cast<std::size_t>(c);
    result.foretold[k] = other->mean[c];
    result.difference[k] = difference(
        other->mean[c], other->half_width[c] / quantile(dof, kHalfWidthConfidence), dof,
        of.profile.mean.vec()[c], std::sqrt(source.covariance(c, c) / source.n), source.dof);
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
