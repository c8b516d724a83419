#include "registration/variance_factors.h"

#include <algorithm>
#include <cmath>

#include "core/statement.h"

namespace versolay {
namespace {

constexpr double kLeastVarianceFactor = 0.01;
constexpr int kMostSteps = 100;

/// One step towards the factors of highest restricted likelihood, each pooled with the statement.
/// With C the whole covariance and S what the factors scale of it, a group's squared residuals are
/// the sum of u_i (S u)_i over it, u = C^-1 residual, and its redundancy that of (S W)_ii, W = C^-1
/// less what the parameters take up.
std::vector<double> next_factors(const LeastSquaresProblem& problem,
                                 const LeastSquaresSolution& solution,
                                 const Eigen::MatrixXd& scaled, const std::vector<double>& factors,
                                 double least) {
  const Eigen::Index n = problem.design.rows();
  const Eigen::VectorXd u = solution.whitener.solve(
      Eigen::VectorXd(problem.value - problem.design * solution.parameters));
  const Eigen::VectorXd scaled_u = scaled * u;
  const Eigen::MatrixXd taken = solution.weighted_design();
  const Eigen::MatrixXd w = solution.whitener.inverse() - propagated(taken, solution.covariance);
  std::vector<double> squares(factors.size(), 0.0);
  std::vector<double> redundancy(factors.size(), 0.0);
  for (Eigen::Index i = 0; i < n; ++i) {
    const std::size_t group = problem.group[static_cast<std::size_t>(i)];
    squares[group] += u[i] * scaled_u[i];
    redundancy[group] += scaled.row(i).dot(w.col(i));
  }
  std::vector<double> next;
  for (std::size_t g = 0; g < factors.size(); ++g) {
    const double pooled =
        (kStatementDof + factors[g] * squares[g]) / (kStatementDof + redundancy[g]);
    next.push_back(std::max({pooled, least, kLeastVarianceFactor}));
  }
  return next;
}

bool same(const std::vector<double>& a, const std::vector<double>& b) {
  return std::equal(a.begin(), a.end(), b.begin(),
                    [](double x, double y) { return std::abs(x - y) < 1e-4 * y; });
}

}  // namespace

Eigen::MatrixXd scaled_by_group(const Eigen::MatrixXd& stated, const LeastSquaresProblem& problem,
                                const std::vector<double>& factors) {
  Eigen::VectorXd sd(stated.rows());
  for (Eigen::Index i = 0; i < sd.size(); ++i) {
    sd[i] = std::sqrt(factors[problem.group[static_cast<std::size_t>(i)]]);
  }
  return sd.asDiagonal() * stated * sd.asDiagonal();
}

std::optional<std::vector<double>> variance_factors(const LeastSquaresProblem& problem,
                                                    const Eigen::MatrixXd& stated, double least) {
  std::vector<double> factors(1 + *std::max_element(problem.group.begin(), problem.group.end()),
                              1.0);
  for (int step = 0; step < kMostSteps; ++step) {
    const Eigen::MatrixXd scaled = scaled_by_group(stated, problem, factors);
    const auto solution = solve(problem, scaled);
    if (!solution) return std::nullopt;
    auto next = next_factors(problem, *solution, scaled, factors, least);
    const bool settled = same(next, factors);
    factors = std::move(next);
    if (settled) break;
  }
  return factors;
}

}  // namespace versolay
