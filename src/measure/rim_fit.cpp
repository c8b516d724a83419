#include "measure/rim_fit.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <numbers>

#include "measure/median.h"

namespace versolay {
namespace {

constexpr int kIterations = 6;
constexpr double kRejectSigmas = 4.0;
constexpr double kLeastShare = 0.6;
constexpr int kSectors = 12;
constexpr int kMostEmptySectors = 4;

bool covers_the_circle(const std::vector<RimPoint>& points, const Eigen::VectorXd& weights) {
  int count[kSectors] = {};
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (weights[static_cast<Eigen::Index>(i)] <= 0.0) continue;
    const double turns = points[i].angle_rad / (2 * std::numbers::pi);
    ++count[static_cast<int>((turns - std::floor(turns)) * kSectors) % kSectors];
  }
  return std::count(count, count + kSectors, 0) <= kMostEmptySectors;
}

/// Tukey's biweight: zero beyond `limit`.
double biweight(double residual, double limit) {
  const double u = residual / limit;
  return std::abs(u) >= 1.0 ? 0.0 : (1 - u * u) * (1 - u * u);
}

}  // namespace

std::optional<RimFit> fit_rims(const std::vector<RimPoint>& points, int rims, int expected,
                               double least_sigma_mm) {
  const auto n = static_cast<Eigen::Index>(points.size());
  if (static_cast<double>(n) < kLeastShare * expected) return std::nullopt;

  const Eigen::Index unknowns = 2 + 3 * rims;
  Eigen::MatrixXd model = Eigen::MatrixXd::Zero(n, unknowns);
  Eigen::VectorXd radius(n);
  for (Eigen::Index i = 0; i < n; ++i) {
    const RimPoint& p = points[static_cast<std::size_t>(i)];
    const Eigen::Index own = 2 + 3 * p.rim;
    model(i, 0) = std::cos(p.angle_rad);
    model(i, 1) = std::sin(p.angle_rad);
    model(i, own) = 1.0;
    model(i, own + 1) = std::cos(2 * p.angle_rad);
    model(i, own + 2) = std::sin(2 * p.angle_rad);
    radius[i] = p.radius_mm;
  }

  // Start from the medians of the radii, not from a least-squares fit: half a rim of wrong points
  // must not pull the first residuals.
  Eigen::VectorXd solution = Eigen::VectorXd::Zero(unknowns);
  for (int k = 0; k < rims; ++k) {
    std::vector<double> own;
    for (const RimPoint& p : points) {
      if (p.rim == k) own.push_back(p.radius_mm);
    }
    if (own.size() < 8) return std::nullopt;
    solution[2 + 3 * k] = median(own);
  }

  Eigen::VectorXd weights = Eigen::VectorXd::Ones(n);
  Eigen::MatrixXd normal;
  double sigma = 0.0;
  for (int iteration = 0; iteration < kIterations; ++iteration) {
    const Eigen::VectorXd residual = radius - model * solution;
    std::vector<double> sizes(static_cast<std::size_t>(n));
    for (Eigen::Index i = 0; i < n; ++i) {
      sizes[static_cast<std::size_t>(i)] = std::abs(residual[i]);
    }
    sigma = std::max(least_sigma_mm, 1.4826 * median(sizes));
    for (Eigen::Index i = 0; i < n; ++i) weights[i] = biweight(residual[i], kRejectSigmas * sigma);
    normal = model.transpose() * weights.asDiagonal() * model;
    const Eigen::LDLT<Eigen::MatrixXd> solver(normal);
    if (solver.info() != Eigen::Success || solver.rcond() < 1e-9) return std::nullopt;
    solution = solver.solve(model.transpose() * (weights.array() * radius.array()).matrix());
  }

  RimFit fit;
  fit.used = static_cast<int>((weights.array() > 0.0).count());
  if (fit.used < kLeastShare * expected || !covers_the_circle(points, weights)) {
    return std::nullopt;
  }
  const Eigen::VectorXd residual = radius - model * solution;
  const double weight_sum = weights.sum();
  fit.residual_rms_mm = std::sqrt((weights.array() * residual.array().square()).sum() / weight_sum);
  const double dof = std::max(1.0, weight_sum - static_cast<double>(unknowns));
  const double variance = fit.residual_rms_mm * fit.residual_rms_mm * weight_sum / dof;
  const Eigen::MatrixXd inverse =
      normal.ldlt().solve(Eigen::MatrixXd::Identity(unknowns, unknowns));
  fit.centre_mm = solution.head<2>();
  fit.covariance_mm2 = variance * inverse.topLeftCorner<2, 2>();
  for (int k = 0; k < rims; ++k) {
    fit.radii_mm.push_back(solution[2 + 3 * k]);
    fit.second_harmonic_mm.emplace_back(solution[3 + 3 * k], solution[4 + 3 * k]);
  }
  return fit;
}

}  // namespace versolay
