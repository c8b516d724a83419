#include "stats/hotelling.h"

#include <algorithm>
#include <boost/math/distributions/fisher_f.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <limits>

#include "core/expect.h"
#include "core/linear_algebra.h"

namespace versolay::stats {
namespace {

constexpr double kRankTolerance = 1e-9;

/// Eigen-decomposition of the correlation matrix: free of the units of the components.
struct Scaled {
  Eigen::VectorXd scale;  // sd, 1 where a component never varies
  Eigen::VectorXd eigenvalues;
  Eigen::MatrixXd eigenvectors;
  int rank = 0;

  explicit Scaled(const Eigen::MatrixXd& covariance) {
    scale = covariance.diagonal().cwiseMax(0.0).cwiseSqrt();
    for (double& s : scale) s = s > 0 ? s : 1.0;
    const Eigen::MatrixXd correlation =
        scale.cwiseInverse().asDiagonal() * covariance * scale.cwiseInverse().asDiagonal();
    const Eigensystem solved = eigensystem_of(correlation);
    eigenvalues = solved.eigenvalues;
    eigenvectors = solved.eigenvectors;
    rank = static_cast<int>((eigenvalues.array() > kRankTolerance).count());
  }
};

}  // namespace

bool hotelling_is_possible(const MeanVector& m) {
  const int rank = Scaled(m.covariance).rank;
  // With fewer degrees of freedom than components any mean sticks out of the range: that says
  // nothing.
  const auto varying = (m.covariance.diagonal().array() > 0).count();
  return rank >= 1 && m.dof >= varying;
}

HotellingTest hotelling_one_sample(const MeanVector& m) {
  const Scaled s(m.covariance);
  HotellingTest test;
  test.df1 = s.rank;
  test.df2 = m.dof - s.rank + 1;
  expect(test.df1 >= 1 && test.df2 >= 1);
  const Eigen::VectorXd scores = s.eigenvectors.transpose() * m.mean.cwiseQuotient(s.scale);
  bool sticks_out = false;
  for (int i = 0; i < scores.size(); ++i) {
    if (s.eigenvalues[i] > kRankTolerance) {
      test.t2 += m.n * scores[i] * scores[i] / s.eigenvalues[i];
    } else if (std::abs(scores[i]) > 1e-6) {
      sticks_out = true;
    }
  }
  test.f = test.t2 * test.df2 / (static_cast<double>(m.dof) * test.df1);
  test.p_value =
      sticks_out ? 0.0 : cdf(complement(boost::math::fisher_f(test.df1, test.df2), test.f));
  return test;
}

double hotelling_critical(int p, int dof, double alpha) {
  const int df2 = dof - p + 1;
  expect(p >= 1 && df2 >= 1);
  return static_cast<double>(dof) * p / df2 *
         quantile(complement(boost::math::fisher_f(p, df2), alpha));
}

BonferroniT bonferroni_t(const MeanVector& m) {
  expect(m.dof >= 1 && m.n >= 1);
  BonferroniT worst;
  int varying = 0;
  for (int i = 0; i < m.mean.size(); ++i) {
    if (m.covariance(i, i) <= 0 && m.mean[i] == 0) continue;
    ++varying;
    const double t = m.covariance(i, i) > 0
                         ? std::abs(m.mean[i]) / std::sqrt(m.covariance(i, i) / m.n)
                         : std::numeric_limits<double>::max();
    if (t > worst.t) {
      worst.t = t;
      worst.component = i;
    }
  }
  if (varying > 0) {
    const boost::math::students_t student(m.dof);
    worst.p_value = std::min(1.0, varying * 2 * cdf(complement(student, worst.t)));
  }
  return worst;
}

double t_half_width(int dof, double confidence) {
  expect(dof >= 1);
  return quantile(boost::math::students_t(dof), (1 + confidence) / 2);
}

}  // namespace versolay::stats
