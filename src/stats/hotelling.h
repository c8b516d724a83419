// Is a mean vector zero?
#pragma once

#include <Eigen/Core>

namespace versolay::stats {

/// A mean vector with what is known of its spread: covariance of one observation (dof degrees of
/// freedom), n observations behind the mean.
struct MeanVector {
  Eigen::VectorXd mean;
  Eigen::MatrixXd covariance;
  int n = 0;
  int dof = 0;
};

struct HotellingTest {
  double t2 = 0.0;
  double f = 0.0;
  int df1 = 0;  // rank of the covariance
  int df2 = 0;  // dof - rank + 1
  double p_value = 1.0;
};

/// Hotelling's one-sample T2 of mean = 0. A singular covariance is used on its range; a mean that
/// sticks out of the range (a component that never varies and is not zero) gives p = 0.
/// Precondition: as many degrees of freedom as components that vary, see hotelling_is_possible.
/// Source  Johnson & Wichern, Applied Multivariate Statistical Analysis, section 5.2.
HotellingTest hotelling_one_sample(const MeanVector& m);
bool hotelling_is_possible(const MeanVector& m);

/// T2 that a zero mean exceeds with probability alpha. Precondition: dof - p + 1 >= 1.
double hotelling_critical(int p, int dof, double alpha);

struct BonferroniT {
  double t = 0.0;  // the largest |t|
  int component = 0;
  double p_value = 1.0;  // multiplied by the number of components that vary, at most 1
};

/// Student's t of every component that varies, by Bonferroni. Works for any n >= 2.
BonferroniT bonferroni_t(const MeanVector& m);

/// Two-sided t quantile: half width of a `confidence` interval in standard errors.
double t_half_width(int dof, double confidence);

}  // namespace versolay::stats
