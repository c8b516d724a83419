// Sepals of irises, for tests against published results.
#pragma once

#include <Eigen/Core>

namespace versolay::testing {

/// Length and width of the sepals, cm, 70 x 2: 50 of Iris setosa, 20 of versicolor.
/// SOURCE  R 4.2.2, data set iris, rows 1 to 70 (Anderson 1935, Fisher 1936).
inline const Eigen::Matrix<double, 70, 2>& iris_sepals() {
  // clang-format off
  static const Eigen::Matrix<double, 70, 2> sepals = (Eigen::Matrix<double, 70, 2>() <<
    5.1, 3.5, 4.9, 3, 4.7, 3.2, 4.6, 3.1, 5, 3.6, 5.4, 3.9, 4.6, 3.4, 5, 3.4,
    4.4, 2.9, 4.9, 3.1, 5.4, 3.7, 4.8, 3.4, 4.8, 3, 4.3, 3, 5.8, 4, 5.7, 4.4,
    5.4, 3.9, 5.1, 3.5, 5.7, 3.8, 5.1, 3.8, 5.4, 3.4, 5.1, 3.7, 4.6, 3.6, 5.1, 3.3,
    4.8, 3.4, 5, 3, 5, 3.4, 5.2, 3.5, 5.2, 3.4, 4.7, 3.2, 4.8, 3.1, 5.4, 3.4,
    5.2, 4.1, 5.5, 4.2, 4.9, 3.1, 5, 3.2, 5.5, 3.5, 4.9, 3.6, 4.4, 3, 5.1, 3.4,
    5, 3.5, 4.5, 2.3, 4.4, 3.2, 5, 3.5, 5.1, 3.8, 4.8, 3, 5.1, 3.8, 4.6, 3.2,
    5.3, 3.7, 5, 3.3, 7, 3.2, 6.4, 3.2, 6.9, 3.1, 5.5, 2.3, 6.5, 2.8, 5.7, 2.8,
    6.3, 3.3, 4.9, 2.4, 6.6, 2.9, 5.2, 2.7, 5, 2, 5.9, 3, 6, 2.2, 6.1, 2.9,
    5.6, 2.9, 6.7, 3.1, 5.6, 3, 5.8, 2.7, 6.2, 2.2, 5.6, 2.5).finished();
  // clang-format on
  return sepals;
}

}  // namespace versolay::testing
