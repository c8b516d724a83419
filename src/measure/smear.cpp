#include "measure/smear.h"

#include "measure/median.h"

namespace versolay {

double smear_of(const std::vector<Eigen::Vector2d>& tails) {
  std::vector<double> x;
  std::vector<double> y;
  for (const Eigen::Vector2d& tail : tails) {
    x.push_back(tail.x());
    y.push_back(tail.y());
  }
  return Eigen::Vector2d(median(x), median(y)).norm();
}

}  // namespace versolay
