// Standard normal numbers for tests, the same with every compiler.
#pragma once

#include <Eigen/Core>
#include <random>

namespace versolay::testing_support {

class Noise {
 public:
  explicit Noise(unsigned seed) : engine_(seed) {}
  double operator()() {
    double sum = -6.0;  // Irwin-Hall: 12 uniform numbers
    for (int i = 0; i < 12; ++i) sum += (static_cast<double>(engine_()) + 0.5) / 4294967296.0;
    return sum;
  }
  Eigen::VectorXd vector(Eigen::Index n, double sd) {
    Eigen::VectorXd v(n);
    for (Eigen::Index i = 0; i < n; ++i) v[i] = sd * (*this)();
    return v;
  }

 private:
  std::mt19937 engine_;
};

}  // namespace versolay::testing_support
