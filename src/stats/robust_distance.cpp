#include "stats/robust_distance.h"

#include <Eigen/Cholesky>
#include <Eigen/LU>
#include <algorithm>
#include <boost/math/distributions/chi_squared.hpp>
#include <cmath>
#include <limits>
#include <numeric>

#include "core/expect.h"
#include "core/parallel.h"
#include "stats/order_statistic.h"
#include "stats/outliers.h"
#include "stats/random.h"

namespace versolay::stats {
namespace {

constexpr int kMostHalves = 1000;  // that are all looked at: up to 12 rows of 3 components
constexpr int kStarts = 100;
constexpr int kFirstSteps = 2;  // before the worse starts are given up
constexpr int kFinalists = 10;
constexpr int kMostSteps = 100;
constexpr double kSingular = 1e-18;  // of a determinant of scaled values
constexpr std::uint64_t kStartsSeed = 20250103;
constexpr int kLimitRuns = 500;

// At most six components: no memory is asked for in the inner loops.
using Vector = Eigen::Matrix<double, Eigen::Dynamic, 1, 0, 6, 1>;
using Matrix = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, 0, 6, 6>;

struct Shape {
  Vector centre;
  Matrix covariance;
};

Shape shape_of(const Eigen::MatrixXd& columns, const std::vector<int>& members) {
  const Eigen::Index p = columns.rows();
  Shape s{Vector::Zero(p), Matrix::Zero(p, p)};
  for (int i : members) s.centre += columns.col(i);
  s.centre /= static_cast<double>(members.size());
  for (int i : members) {
    const Vector off = columns.col(i) - s.centre;
    s.covariance.noalias() += off * off.transpose();
  }
  s.covariance /= static_cast<double>(members.size()) - 1;
  return s;
}

/// Squared distances of all columns; empty when the covariance is singular.
std::vector<double> squared_distances(const Eigen::MatrixXd& columns, const Shape& shape) {
  const Eigen::LLT<Matrix> factor(shape.covariance);
  const Matrix lower = factor.matrixL();
  const double root = lower.diagonal().prod();
  if (factor.info() != Eigen::Success || !(root * root > kSingular)) return {};
  std::vector<double> squared;
  for (Eigen::Index i = 0; i < columns.cols(); ++i) {
    const Vector off = columns.col(i) - shape.centre;
    squared.push_back(lower.triangularView<Eigen::Lower>().solve(off).squaredNorm());
  }
  return squared;
}

/// The `half` columns that lie closest.
std::vector<int> closest(const std::vector<double>& squared, std::size_t half) {
  std::vector<int> order(squared.size());
  std::iota(order.begin(), order.end(), 0);
  std::nth_element(order.begin(), order.begin() + static_cast<std::ptrdiff_t>(half) - 1,
                   order.end(), [&](int a, int b) {
                     return squared[static_cast<std::size_t>(a)] <
                            squared[static_cast<std::size_t>(b)];
                   });
  order.resize(half);
  std::sort(order.begin(), order.end());
  return order;
}

struct Candidate {
  std::vector<int> members;
  double determinant = std::numeric_limits<double>::max();
};

double determinant_of(const Eigen::MatrixXd& columns, const std::vector<int>& members) {
  return std::max(0.0, Matrix(shape_of(columns, members).covariance).determinant());
}

/// Concentration steps: none of them makes the determinant larger.
Candidate concentrated(const Eigen::MatrixXd& columns, Candidate c, std::size_t half, int steps) {
  for (int step = 0; step < steps; ++step) {
    const std::vector<double> squared = squared_distances(columns, shape_of(columns, c.members));
    if (squared.empty()) return {std::move(c.members), 0.0};
    std::vector<int> members = closest(squared, half);
    const bool same = members == c.members;
    c.members = std::move(members);
    if (same) break;
  }
  c.determinant = determinant_of(columns, c.members);
  return c;
}

/// Number of ways to choose k of n; stops counting beyond `most`.
int choices(int n, int k, int most) {
  double count = 1.0;
  for (int i = 1; i <= k; ++i) count = count * (n - k + i) / i;
  return count > most ? most + 1 : static_cast<int>(std::lround(count));
}

Candidate best_of_all(const Eigen::MatrixXd& columns, std::size_t half) {
  std::vector<int> members(half);
  std::iota(members.begin(), members.end(), 0);
  const int n = static_cast<int>(columns.cols());
  const int h = static_cast<int>(half);
  Candidate best;
  for (;;) {
    const double determinant = determinant_of(columns, members);
    if (determinant < best.determinant) best = {members, determinant};
    int at = h - 1;
    while (at >= 0 && members[static_cast<std::size_t>(at)] == n - h + at) --at;
    if (at < 0) return best;
    ++members[static_cast<std::size_t>(at)];
    for (int i = at + 1; i < h; ++i) {
      members[static_cast<std::size_t>(i)] = members[static_cast<std::size_t>(i - 1)] + 1;
    }
  }
}

Candidate best_of_starts(const Eigen::MatrixXd& columns, std::size_t half) {
  Random random(kStartsSeed);
  std::vector<int> order(static_cast<std::size_t>(columns.cols()));
  std::iota(order.begin(), order.end(), 0);
  const auto few = static_cast<std::size_t>(columns.rows()) + 1;
  std::vector<Candidate> list;
  for (int start = 0; start < kStarts; ++start) {
    for (std::size_t k = 0; k < few; ++k) {
      const auto left = static_cast<double>(order.size() - k);
      std::swap(order[k], order[k + static_cast<std::size_t>(random.uniform() * left)]);
    }
    const auto end = order.begin() + static_cast<std::ptrdiff_t>(few);
    list.push_back(concentrated(columns, {{order.begin(), end}}, half, kFirstSteps));
  }
  // Starts that happened to lie in a plane of their own are no halves.
  std::erase_if(list, [half](const Candidate& c) { return c.members.size() != half; });
  if (list.empty()) return {};
  const auto smaller = [](const Candidate& a, const Candidate& b) {
    return a.determinant < b.determinant;
  };
  std::sort(list.begin(), list.end(), smaller);
  list.resize(std::min<std::size_t>(list.size(), kFinalists));
  for (Candidate& c : list) c = concentrated(columns, std::move(c), half, kMostSteps);
  return *std::min_element(list.begin(), list.end(), smaller);
}

/// Makes the covariance of the inner share of a normal distribution that of the whole.
double consistency(double share, int p) {
  if (share >= 1) return 1.0;
  const double inside = quantile(boost::math::chi_squared(p), share);
  return share / cdf(boost::math::chi_squared(p + 2), inside);
}

/// One column per row, every component about its median and of one size, whether mm, mrad or ppm.
Eigen::MatrixXd scaled_columns(const Eigen::MatrixXd& rows, Eigen::VectorXd& middle,
                               Eigen::VectorXd& size) {
  Eigen::MatrixXd columns = rows.transpose();
  middle.resize(rows.cols());
  size.resize(rows.cols());
  for (Eigen::Index c = 0; c < rows.cols(); ++c) {
    const std::vector<double> values(rows.col(c).begin(), rows.col(c).end());
    middle[c] = robust_summary(values).median;
    columns.row(c).array() -= middle[c];
    const double off = columns.row(c).cwiseAbs().mean();
    size[c] = off > 0 ? off : 1.0;
    columns.row(c) /= size[c];
  }
  return columns;
}

}  // namespace

std::optional<RobustDistances> robust_distances(const Eigen::MatrixXd& rows) {
  const int n = static_cast<int>(rows.rows());
  const int p = static_cast<int>(rows.cols());
  expect(p >= 1 && p <= 6);
  if (n < 2 * (p + 1)) return std::nullopt;
  Eigen::VectorXd middle;
  Eigen::VectorXd size;
  const Eigen::MatrixXd columns = scaled_columns(rows, middle, size);

  const auto half = static_cast<std::size_t>((n + p + 1) / 2);
  RobustDistances result;
  result.exact = choices(n, static_cast<int>(half), kMostHalves) <= kMostHalves;
  const Candidate best = result.exact ? best_of_all(columns, half) : best_of_starts(columns, half);
  if (best.members.size() != half || best.determinant <= kSingular) return std::nullopt;

  Shape raw = shape_of(columns, best.members);
  raw.covariance *= consistency(static_cast<double>(half) / n, p);
  constexpr double kInside = 0.975;
  const double limit = quantile(boost::math::chi_squared(p), kInside);
  const std::vector<double> from_raw = squared_distances(columns, raw);
  std::vector<int> kept;
  for (int i = 0; i < n; ++i) {
    if (from_raw[static_cast<std::size_t>(i)] <= limit) kept.push_back(i);
  }
  if (kept.size() < half) kept = best.members;
  Shape shape = shape_of(columns, kept);
  shape.covariance *= consistency(kInside, p);
  for (double squared : squared_distances(columns, shape)) {
    result.distances.push_back(std::sqrt(squared));
  }
  result.centre = middle + size.cwiseProduct(Eigen::VectorXd(shape.centre));
  result.covariance = size.asDiagonal() * Eigen::MatrixXd(shape.covariance) * size.asDiagonal();
  return result;
}

double robust_distance_limit(int n, int p, double alpha, std::uint64_t seed, int threads) {
  expect(n >= 2 * (p + 1));
  std::vector<float> largest(kLimitRuns);
  for_each_item(kLimitRuns, 8, threads, [&] {
    return [&](int run) {
      Random random(seed, static_cast<std::uint64_t>(run));
      Eigen::MatrixXd rows(n, p);
      for (double& value : rows.reshaped()) value = random.normal();
      const auto robust = robust_distances(rows);
      largest[static_cast<std::size_t>(run)] = static_cast<float>(
          robust ? *std::max_element(robust->distances.begin(), robust->distances.end()) : 0.0);
    };
  });
  std::vector<float> scratch;
  return order_statistic(largest, rank_of_share(1 - alpha, largest.size()), scratch);
}

}  // namespace versolay::stats
