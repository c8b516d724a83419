#include "measure/affine_fit.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "core/expect.h"
#include "core/linear_algebra.h"
#include "measure/median.h"

namespace versolay {

Affine<ScanPx, PageMm> fit_similarity(const std::vector<PagePair>& pairs) {
  expect(pairs.size() >= 2);
  Eigen::Vector2d page_mean = Eigen::Vector2d::Zero();
  Eigen::Vector2d scan_mean = Eigen::Vector2d::Zero();
  for (const PagePair& p : pairs) {
    page_mean += p.page.vec() / static_cast<double>(pairs.size());
    scan_mean += p.scan.vec() / static_cast<double>(pairs.size());
  }
  double cosine = 0.0;
  double sine = 0.0;
  double size = 0.0;
  for (const PagePair& p : pairs) {
    const Eigen::Vector2d a = p.page.vec() - page_mean;
    const Eigen::Vector2d b = p.scan.vec() - scan_mean;
    cosine += a.dot(b);
    sine += a.x() * b.y() - a.y() * b.x();
    size += a.squaredNorm();
  }
  Eigen::Matrix2d linear;
  linear << cosine, -sine, sine, cosine;
  linear /= size;
  return {linear, scan_mean - linear * page_mean};
}

double PageFit::leverage(const Point<ScanPx>& p) const {
  const Eigen::Vector3d row(1.0, p.x - centroid_px.x(), p.y - centroid_px.y());
  return row.dot(cofactor * row);
}

std::optional<PageFit> fit_page(const std::vector<PagePair>& pairs, double least_limit_mm,
                                int least_pairs) {
  const auto n = static_cast<Eigen::Index>(pairs.size());
  const int least = std::max(3, least_pairs);
  if (n < least) return std::nullopt;
  PageFit fit;
  fit.kept.assign(pairs.size(), true);
  for (const PagePair& p : pairs) fit.centroid_px += p.scan.vec() / static_cast<double>(n);
  Eigen::MatrixXd rows(n, 3);
  Eigen::MatrixXd page(n, 2);
  for (Eigen::Index i = 0; i < n; ++i) {
    const PagePair& p = pairs[static_cast<std::size_t>(i)];
    rows.row(i) << 1.0, p.scan.x - fit.centroid_px.x(), p.scan.y - fit.centroid_px.y();
    page.row(i) << p.page.x, p.page.y;
  }
  while (true) {
    Eigen::VectorXd weight(n);
    for (Eigen::Index i = 0; i < n; ++i) weight[i] = fit.kept[static_cast<std::size_t>(i)];
    fit.used = static_cast<int>(weight.sum());
    const Eigen::MatrixXd weighted_rows = weight.asDiagonal() * rows;
    const Eigen::Matrix3d normal = inner_product(weighted_rows, rows);
    const Eigen::VectorXd extent = eigenvalues_of(normal.bottomRightCorner<2, 2>());
    if (extent[0] < 1e-6 * extent[1] || extent[1] <= 0.0) {
      return std::nullopt;  // on a line
    }
    fit.cofactor = normal.inverse();
    const Eigen::Matrix<double, 3, 2> map =
        fit.cofactor * Eigen::Matrix<double, 3, 2>(inner_product(weighted_rows, page));
    const Eigen::VectorXd residual = (page - product(rows, map)).rowwise().norm();
    const Eigen::Matrix2d linear = map.bottomRows<2>().transpose();
    fit.page_from_scan = {linear, map.row(0).transpose() - linear * fit.centroid_px};

    double sum_squares = 0.0;
    std::vector<double> sizes;
    Eigen::Index worst = 0;
    double worst_size = -1.0;
    for (Eigen::Index i = 0; i < n; ++i) {
      if (!fit.kept[static_cast<std::size_t>(i)]) continue;
      sum_squares += residual[i] * residual[i];
      sizes.push_back(residual[i]);
      if (residual[i] > worst_size) {
        worst_size = residual[i];
        worst = i;
      }
    }
    fit.residual_rms_mm = std::sqrt(sum_squares / (2.0 * fit.used));
    const auto middle = sizes.begin() + static_cast<std::ptrdiff_t>(sizes.size() / 2);
    std::nth_element(sizes.begin(), middle, sizes.end());
    const double limit = std::max(least_limit_mm, kRejectSigmas * *middle / kMedianLengthPerSd);
    if (worst_size <= limit) return fit;
    if (fit.used - 1 < least) return std::nullopt;
    fit.kept[static_cast<std::size_t>(worst)] = false;
  }
}

}  // namespace versolay
