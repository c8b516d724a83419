#include "measure/rim_fit.h"

#include <Eigen/Dense>
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "core/expect.h"
#include "measure/median.h"

namespace versolay {
namespace {

constexpr int kMostIterations = 6;
constexpr double kRimSettledMm = 1e-5;  // between two iterations
constexpr double kLeastShareOfRim = 0.6;
constexpr int kSectors = 12;
constexpr int kMostEmptySectors = 4;
constexpr std::size_t kLeastPointsOfARim = 8;
constexpr double kLeastPivotShare = 1e-9;  // of the greatest: else gaps leave the fit undetermined

/// Unknowns of one rim: its share of the centre (x, y), mean radius, cos and sin of the second
/// harmonic.
constexpr int kOfARim = 5;
using RimRow = Eigen::Matrix<double, kOfARim, 1>;
using RimNormal = Eigen::Matrix<double, kOfARim, kOfARim>;

/// Unknowns of all rims: the centre, and three of each rim. No more than these, so that they need
/// no memory from the heap: a page has some hundred rings.
constexpr int kMostRims = 2;
constexpr int kMostUnknowns = 2 + 3 * kMostRims;
using Unknowns = Eigen::Matrix<double, Eigen::Dynamic, 1, 0, kMostUnknowns, 1>;
using Normal =
    Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, 0, kMostUnknowns, kMostUnknowns>;

RimRow model_row(double angle_rad) {
  const double c = std::cos(angle_rad);
  const double s = std::sin(angle_rad);
  return (RimRow() << c, s, 1.0, c * c - s * s, 2 * s * c).finished();
}

RimRow of_rim(const Unknowns& all, int rim) {
  return (RimRow() << all.head<2>(), all.segment<3>(2 + 3 * rim)).finished();
}

bool covers_the_circle(const std::vector<RimPoint>& points, const std::vector<double>& weights) {
  int count[kSectors] = {};
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (weights[i] <= 0.0) continue;
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

/// Weighted normal equations.
struct Equations {
  Normal normal;
  Unknowns right;
};

Equations equations_of(const std::vector<RimPoint>& points, const std::vector<RimRow>& rows,
                       const std::vector<double>& weights, int rims) {
  std::array<RimNormal, kMostRims> normals;
  std::array<RimRow, kMostRims> rights;
  normals.fill(RimNormal::Zero());
  rights.fill(RimRow::Zero());
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (weights[i] <= 0.0) continue;
    const auto rim = static_cast<std::size_t>(points[i].rim);
    const RimRow weighted = weights[i] * rows[i];
    normals[rim] += weighted * rows[i].transpose();
    rights[rim] += points[i].radius_mm * weighted;
  }
  const int unknowns = 2 + 3 * rims;
  Equations all{Normal::Zero(unknowns, unknowns), Unknowns::Zero(unknowns)};
  for (int k = 0; k < rims; ++k) {
    const RimNormal& normal = normals[static_cast<std::size_t>(k)];
    const RimRow& right = rights[static_cast<std::size_t>(k)];
    const int own = 2 + 3 * k;
    all.normal.topLeftCorner<2, 2>() += normal.topLeftCorner<2, 2>();
    all.normal.block<2, 3>(0, own) = normal.topRightCorner<2, 3>();
    all.normal.block<3, 2>(own, 0) = normal.bottomLeftCorner<3, 2>();
    all.normal.block<3, 3>(own, own) = normal.bottomRightCorner<3, 3>();
    all.right.head<2>() += right.head<2>();
    all.right.segment<3>(own) = right.tail<3>();
  }
  return all;
}

/// From the medians of the radii, not from a least-squares fit: half a rim of wrong points must not
/// pull the first residuals.
std::optional<Unknowns> first_guess(const std::vector<RimPoint>& points, int rims) {
  Unknowns guess = Unknowns::Zero(2 + 3 * rims);
  for (int k = 0; k < rims; ++k) {
    std::vector<double> own;
    for (const RimPoint& p : points) {
      if (p.rim == k) own.push_back(p.radius_mm);
    }
    if (own.size() < kLeastPointsOfARim) return std::nullopt;
    guess[2 + 3 * k] = median(own);
  }
  return guess;
}

std::vector<double> residuals_mm(const std::vector<RimPoint>& points,
                                 const std::vector<RimRow>& rows, const Unknowns& solution,
                                 int rims) {
  std::array<RimRow, kMostRims> own;
  for (int k = 0; k < rims; ++k) own[static_cast<std::size_t>(k)] = of_rim(solution, k);
  std::vector<double> residuals(points.size());
  for (std::size_t i = 0; i < points.size(); ++i) {
    residuals[i] = points[i].radius_mm - rows[i].dot(own[static_cast<std::size_t>(points[i].rim)]);
  }
  return residuals;
}

/// Iteratively re-weighted least squares, as far as it has come.
struct Solution {
  Unknowns values;
  std::vector<double> weights;
  Eigen::LDLT<Normal> normal;
};

/// @return nullopt when the points do not determine the fit.
std::optional<Solution> solve(const std::vector<RimPoint>& points, const std::vector<RimRow>& rows,
                              const Unknowns& guess, int rims, double least_sigma_mm) {
  Solution s{guess, std::vector<double>(points.size()), {}};
  for (int iteration = 0; iteration < kMostIterations; ++iteration) {
    const std::vector<double> residual = residuals_mm(points, rows, s.values, rims);
    const double sigma = std::max(least_sigma_mm, robust_sd(residual));
    for (std::size_t i = 0; i < points.size(); ++i) {
      s.weights[i] = biweight(residual[i], kRejectSigmas * sigma);
    }
    const Equations equations = equations_of(points, rows, s.weights, rims);
    s.normal.compute(equations.normal);
    const auto pivots = s.normal.vectorD();
    if (s.normal.info() != Eigen::Success ||
        pivots.minCoeff() < kLeastPivotShare * pivots.maxCoeff()) {
      return std::nullopt;
    }
    const Unknowns before = s.values;
    s.values = s.normal.solve(equations.right);
    if ((s.values - before).lpNorm<Eigen::Infinity>() < kRimSettledMm) break;
  }
  return s;
}

RimFit fit_of(const Solution& s, const std::vector<double>& residual, int rims) {
  double weight_sum = 0.0;
  double squares = 0.0;
  for (std::size_t i = 0; i < residual.size(); ++i) {
    weight_sum += s.weights[i];
    squares += s.weights[i] * residual[i] * residual[i];
  }
  const auto unknowns = s.values.size();
  const double variance = squares / std::max(1.0, weight_sum - static_cast<double>(unknowns));
  const Normal inverse = s.normal.solve(Normal::Identity(unknowns, unknowns));
  RimFit fit;
  fit.residual_rms_mm = std::sqrt(squares / weight_sum);
  fit.centre_mm = s.values.head<2>();
  fit.covariance_mm2 = variance * inverse.topLeftCorner<2, 2>();
  for (int k = 0; k < rims; ++k) {
    const RimRow own = of_rim(s.values, k);
    fit.radii_mm.push_back(own[2]);
    fit.second_harmonic_mm.emplace_back(own.tail<2>());
  }
  return fit;
}

}  // namespace

std::optional<RimFit> fit_rims(const std::vector<RimPoint>& points, int rims, int expected,
                               double least_sigma_mm) {
  expect(rims >= 1 && rims <= kMostRims);
  if (static_cast<double>(points.size()) < kLeastShareOfRim * expected) return std::nullopt;
  const auto guess = first_guess(points, rims);
  if (!guess) return std::nullopt;
  std::vector<RimRow> rows;
  rows.reserve(points.size());
  for (const RimPoint& p : points) rows.push_back(model_row(p.angle_rad));
  const auto solution = solve(points, rows, *guess, rims, least_sigma_mm);
  if (!solution) return std::nullopt;
  const auto used = std::count_if(solution->weights.begin(), solution->weights.end(),
                                  [](double w) { return w > 0.0; });
  if (static_cast<double>(used) < kLeastShareOfRim * expected ||
      !covers_the_circle(points, solution->weights)) {
    return std::nullopt;
  }
  RimFit fit = fit_of(*solution, residuals_mm(points, rows, solution->values, rims), rims);
  fit.used = static_cast<int>(used);
  return fit;
}

}  // namespace versolay
