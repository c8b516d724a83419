#include "stats/monitoring.h"

#include <Eigen/Cholesky>
#include <Eigen/LU>
#include <algorithm>
#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/fisher_f.hpp>
#include <boost/math/distributions/non_central_chi_squared.hpp>
#include <cmath>

#include "core/expect.h"
#include "core/linear_algebra.h"
#include "stats/order_statistic.h"
#include "stats/random.h"

namespace versolay::stats {
namespace {

/// S^-1 with the units of the components taken out first.
class Metric {
 public:
  explicit Metric(const Sample& reference)
      : scale_(reference.covariance().diagonal().cwiseSqrt()),
        factor_(Eigen::MatrixXd(scale_.cwiseInverse().asDiagonal() * reference.covariance() *
                                scale_.cwiseInverse().asDiagonal())) {
    expect(scale_.minCoeff() > 0 && factor_.exists());
  }
  double t2(const Eigen::VectorXd& off) const {
    return factor_.whitened(Eigen::VectorXd(off.cwiseQuotient(scale_))).squaredNorm();
  }

 private:
  Eigen::VectorXd scale_;
  Cholesky factor_;
};

Eigen::MatrixXd normals(int rows, int columns, Random& random) {
  Eigen::MatrixXd m(rows, columns);
  for (double& value : m.reshaped()) value = random.normal();
  return m;
}

}  // namespace

bool monitoring_is_possible(const Reference& r) { return r.n >= 1 && r.dof >= r.p; }

double phase_two_limit(const Reference& r, double alpha) {
  expect(monitoring_is_possible(r));
  const double df2 = r.dof - r.p + 1;
  return r.p * r.dof / df2 * (1 + 1.0 / r.n) *
         quantile(complement(boost::math::fisher_f(r.p, df2), alpha));
}

double t2_of(const Sample& reference, const Eigen::VectorXd& reading) {
  return Metric(reference).t2(reading - reference.mean);
}

double new_mean_limit(const Reference& r, int m, double alpha) {
  expect(monitoring_is_possible(r) && m >= 1);
  const double df2 = r.dof - r.p + 1;
  return r.p * r.dof / df2 * (1.0 / m + 1.0 / r.n) *
         quantile(complement(boost::math::fisher_f(r.p, df2), alpha));
}

SpreadChange spread_change(const Sample& reference, const Eigen::MatrixXd& readings,
                           std::uint64_t seed) {
  const auto p = static_cast<int>(readings.cols());
  const auto m = static_cast<int>(readings.rows());
  expect(m >= 2 && monitoring_is_possible({p, reference.n, reference.dof}));
  const auto trace = [p](const Sample& of, const Eigen::MatrixXd& rows) {
    const Metric metric(of);
    const Eigen::VectorXd mean = rows.colwise().mean().transpose();
    double sum = 0.0;
    for (const auto& row : rows.rowwise()) sum += metric.t2(row.transpose() - mean);
    return sum / p;
  };
  SpreadChange change;
  change.statistic = trace(reference, readings);
  constexpr int kRuns = 4000;
  int larger = 0;
  int smaller = 0;
  for (int run = 0; run < kRuns; ++run) {
    Random random(seed, static_cast<std::uint64_t>(run));
    Sample like{Eigen::VectorXd::Zero(p), Eigen::MatrixXd::Zero(p, p), reference.n, reference.dof};
    const Eigen::MatrixXd learnt = normals(reference.dof, p, random);
    like.scatter = learnt.transpose() * learnt;
    const double value = trace(like, normals(m, p, random));
    larger += value >= change.statistic ? 1 : 0;
    smaller += value <= change.statistic ? 1 : 0;
  }
  change.p_larger = (larger + 1.0) / (kRuns + 1.0);
  change.p_smaller = (smaller + 1.0) / (kRuns + 1.0);
  return change;
}

std::vector<double> mewma(const Sample& reference, const Eigen::MatrixXd& readings, double lambda) {
  expect(lambda > 0 && lambda <= 1);
  const Metric metric(reference);
  Eigen::VectorXd z = Eigen::VectorXd::Zero(reference.mean.size());
  std::vector<double> t2;
  double forgotten = 1.0;
  for (const auto& row : readings.rowwise()) {
    z = lambda * (row.transpose() - reference.mean) + (1 - lambda) * z;
    forgotten *= (1 - lambda) * (1 - lambda);
    t2.push_back(metric.t2(z) * (2 - lambda) / (lambda * (1 - forgotten)));
  }
  return t2;
}

double mewma_limit(const Reference& r, double lambda, int readings, double alpha,
                   std::uint64_t seed) {
  expect(monitoring_is_possible(r) && readings >= 1);
  constexpr int kRuns = 4000;
  std::vector<float> largest;
  for (int run = 0; run < kRuns; ++run) {
    Random random(seed, static_cast<std::uint64_t>(run));
    Sample reference;
    reference.n = r.n;
    reference.dof = r.dof;
    reference.mean = normals(r.p, 1, random) / std::sqrt(static_cast<double>(r.n));
    const Eigen::MatrixXd scatter_root = normals(r.p, r.dof, random);
    reference.scatter = scatter_root * scatter_root.transpose();
    const std::vector<double> t2 = mewma(reference, normals(readings, r.p, random), lambda);
    largest.push_back(static_cast<float>(*std::max_element(t2.begin(), t2.end())));
  }
  std::vector<float> scratch;
  return order_statistic(largest, rank_of_share(1 - alpha, largest.size()), scratch);
}

double mewma_average_run_length(int p, double lambda, double h) {
  expect(p >= 1 && lambda > 0 && lambda < 1 && h > 0);
  // |Z| is a Markov chain: |Z_i|^2 / lambda^2 is noncentral chi-squared with the noncentrality
  // ((1 - lambda) |Z_(i-1)| / lambda)^2. Rings of equal width, the first half as wide.
  constexpr int kStates = 250;
  const double edge = std::sqrt(h * lambda / (2 - lambda));
  const double width = 2 * edge / (2 * kStates + 1);
  Eigen::MatrixXd stay = Eigen::MatrixXd::Zero(kStates + 1, kStates + 1);
  for (int i = 0; i <= kStates; ++i) {
    const double noncentrality = std::pow((1 - lambda) * i * width / lambda, 2);
    double below = 0.0;
    for (int j = 0; j <= kStates; ++j) {
      const double outer = (j + 0.5) * width / lambda;
      const double at =
          noncentrality > 0
              ? cdf(boost::math::non_central_chi_squared(p, noncentrality), outer * outer)
              : cdf(boost::math::chi_squared(p), outer * outer);
      stay(i, j) = at - below;
      below = at;
    }
  }
  const Eigen::MatrixXd system = Eigen::MatrixXd::Identity(kStates + 1, kStates + 1) - stay;
  return system.partialPivLu().solve(Eigen::VectorXd::Ones(kStates + 1))[0];
}

}  // namespace versolay::stats
