#include "profile/residual_field.h"

#include <Eigen/Dense>
#include <algorithm>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <map>

#include "core/expect.h"
#include "core/linear_algebra.h"
#include "profile/test_settings.h"
#include "stats/sample.h"

namespace versolay {
namespace {

constexpr std::size_t kFewestHoles = 8;
constexpr int kFewestSheets = 4;
/// How far the field reaches, as a share of the page's diagonal: holes on the rim of a page cannot
/// show it, so it is assumed, and the cards in the middle get the uncertainty that follows.
constexpr double kReach = 0.25;
constexpr int kAffineParameters = 6;

struct Collected {
  Point<VersoMm> at;
  std::vector<Eigen::Vector2d> residuals;
};

double p_of(double mean, double sd_of_mean, int n) {
  if (sd_of_mean <= 0) return 1.0;
  return 2 * cdf(complement(boost::math::students_t(n - 1), std::abs(mean) / sd_of_mean));
}

}  // namespace

ResidualField estimate_field(std::span<const ReadingSession> sessions,
                             const std::vector<std::vector<bool>>& used, double page_diagonal_mm) {
  std::map<std::string, Collected> holes;
  for (std::size_t b = 0; b < sessions.size(); ++b) {
    const auto& sheets = sessions[b].readings.sheets;
    for (std::size_t i = 0; i < sheets.size(); ++i) {
      if (!used[b][i]) continue;
      for (const FeatureReading& f : sheets[i].features) {
        if (f.normal) continue;  // an edge of the paper: one axis only, not straight, not a hole
        Collected& hole = holes[f.id];
        hole.at = f.at;
        hole.residuals.push_back(f.e_mm - sheets[i].registration.displacement_mm(f.at));
      }
    }
  }
  std::erase_if(holes, [](const auto& entry) {
    return entry.second.residuals.size() < static_cast<std::size_t>(kFewestSheets);
  });
  ResidualField field;
  if (holes.size() < kFewestHoles) return field;

  double smallest_p = 1.0;
  double squares = 0.0;
  double noise = 0.0;
  for (const auto& [id, hole] : holes) {
    const auto n = static_cast<Eigen::Index>(hole.residuals.size());
    Eigen::MatrixXd rows(n, 2);
    for (Eigen::Index i = 0; i < n; ++i) {
      rows.row(i) = hole.residuals[static_cast<std::size_t>(i)].transpose();
    }
    const stats::Sample sample = stats::sample_of(rows);
    const Eigen::Vector2d variance = sample.covariance().diagonal() / sample.n;
    for (int axis = 0; axis < 2; ++axis) {
      smallest_p =
          std::min(smallest_p, p_of(sample.mean[axis], std::sqrt(variance[axis]), sample.n));
    }
    squares += sample.mean.squaredNorm();
    noise += variance.sum();
    field.points.push_back({id, hole.at, sample.mean, std::sqrt(variance.mean()), sample.n});
  }
  const double numbers = 2.0 * static_cast<double>(field.points.size());
  field.p_value = std::min(1.0, numbers * smallest_p);
  field.real = field.p_value < kLevel;
  field.length_mm = kReach * page_diagonal_mm;
  field.amplitude_mm = std::sqrt(std::max(0.0, squares - noise) / (numbers - kAffineParameters));
  return field;
}

FieldEstimate field_at(const ResidualField& field, std::span<const Point<VersoMm>> places) {
  expect(field.real && field.points.size() >= kFewestHoles);
  const auto holes = static_cast<Eigen::Index>(field.points.size());
  const auto count = static_cast<Eigen::Index>(places.size());
  const double variance = std::pow(std::max(field.amplitude_mm, 1e-4), 2);
  const auto covariance = [&](const Point<VersoMm>& a, const Point<VersoMm>& b) {
    const double distance = (a.vec() - b.vec()).norm() / field.length_mm;
    return variance * std::exp(-0.5 * distance * distance);
  };
  const auto drift = [&](const Point<VersoMm>& p) {
    return Eigen::Vector3d(1.0, p.x / field.length_mm, p.y / field.length_mm);
  };
  Eigen::MatrixXd k(holes, holes);
  Eigen::MatrixXd to_places(holes, count);
  Eigen::MatrixXd drift_holes(holes, 3);
  Eigen::MatrixXd drift_places(count, 3);
  Eigen::MatrixXd among(count, count);
  Eigen::MatrixX2d residual(holes, 2);
  for (Eigen::Index i = 0; i < holes; ++i) {
    const FieldPoint& p = field.points[static_cast<std::size_t>(i)];
    for (Eigen::Index j = 0; j < holes; ++j) {
      k(i, j) = covariance(p.at, field.points[static_cast<std::size_t>(j)].at);
    }
    k(i, i) += std::max(p.sd_mm * p.sd_mm, 1e-6 * variance);
    for (Eigen::Index j = 0; j < count; ++j) {
      to_places(i, j) = covariance(p.at, places[static_cast<std::size_t>(j)]);
    }
    drift_holes.row(i) = drift(p.at).transpose();
    residual.row(i) = p.residual_mm.transpose();
  }
  for (Eigen::Index i = 0; i < count; ++i) {
    const Point<VersoMm>& p = places[static_cast<std::size_t>(i)];
    drift_places.row(i) = drift(p).transpose();
    for (Eigen::Index j = 0; j < count; ++j) {
      among(i, j) = covariance(p, places[static_cast<std::size_t>(j)]);
    }
  }
  const Cholesky factor(k);
  const Eigen::MatrixXd weighted = factor.solve(drift_holes);
  const Eigen::Matrix3d normal = inner_product(drift_holes, weighted);
  const Eigen::MatrixXd beta = solve_symmetric(normal, inner_product(weighted, residual));
  const Eigen::MatrixXd value =
      product(drift_places, beta) +
      inner_product(to_places,
                    factor.solve(Eigen::MatrixXd(residual - product(drift_holes, beta))));
  const Eigen::MatrixXd lacking = drift_places - inner_product(to_places, weighted);
  const Eigen::MatrixXd error =
      among - inner_product(to_places, factor.solve(to_places)) +
      product(lacking, solve_symmetric(normal, Eigen::MatrixXd(lacking.transpose())));
  FieldEstimate estimate;
  for (Eigen::Index i = 0; i < count; ++i) estimate.at_mm.push_back(value.row(i).transpose());
  estimate.root_mm = symmetric_root((error + error.transpose()) / 2);
  return estimate;
}

}  // namespace versolay
