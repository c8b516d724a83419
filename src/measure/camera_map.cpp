#include "measure/camera_map.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "core/linear_algebra.h"
#include "measure/median.h"

namespace versolay {
namespace {

using Eigen::Matrix3d;
using Eigen::MatrixXd;
using Eigen::Vector2d;
using Eigen::Vector3d;
using Eigen::VectorXd;
using Numbers = Eigen::Matrix<double, 10, 1>;

constexpr double kUnitMm = 100.0;       // so that all numbers are of one size
constexpr double kLensSd = 0.05;        // of k1 and k2, from memory of telephones
constexpr double kPlaceSdMm = 0.1;      // of a pair, against which the lens's limit is weighed
constexpr double kLeastLimitMm = 0.35;  // paper that bulges may be off by this
constexpr double kFocalOfHalfDiagonal = 26.0 / 21.6;  // 26 mm on film of 36 x 24 mm
constexpr int kMostSteps = 30;
constexpr int kLensInversions = 20;  // each contracts by the distortion, some per cent

Matrix3d perspective(const Numbers& n) {
  Matrix3d h;
  h << n[0], n[1], n[2], n[3], n[4], n[5], n[6], n[7], 1.0;
  return h;
}

Vector2d through_lens(const Vector2d& u, const Numbers& n) {
  const double r2 = u.squaredNorm();
  return u * (1.0 + n[8] * r2 + n[9] * r2 * r2);
}

Vector2d page_of(const Vector2d& u, const Numbers& n) {
  return (perspective(n) * through_lens(u, n).homogeneous()).hnormalized();
}

/// Residuals in units of kUnitMm, x and y of each pair, then those of the lens.
VectorXd residuals(const std::vector<Vector2d>& seen, const std::vector<Vector2d>& page,
                   const Numbers& n) {
  const auto count = static_cast<Eigen::Index>(seen.size());
  VectorXd r(2 * count + 2);
  for (Eigen::Index i = 0; i < count; ++i) {
    const auto k = static_cast<std::size_t>(i);
    r.segment<2>(2 * i) = page_of(seen[k], n) - page[k];
  }
  r.tail<2>() = n.tail<2>() * (kPlaceSdMm / kUnitMm / kLensSd);
  return r;
}

/// Perspective alone, by the linear equations of the eight numbers; a start for the steps.
std::optional<Numbers> linear_start(const std::vector<Vector2d>& seen,
                                    const std::vector<Vector2d>& page) {
  const auto count = static_cast<Eigen::Index>(seen.size());
  MatrixXd rows = MatrixXd::Zero(2 * count, 8);
  VectorXd right(2 * count);
  for (Eigen::Index i = 0; i < count; ++i) {
    const Vector3d u = seen[static_cast<std::size_t>(i)].homogeneous();
    const Vector2d& p = page[static_cast<std::size_t>(i)];
    rows.block<1, 3>(2 * i, 0) = u.transpose();
    rows.block<1, 3>(2 * i + 1, 3) = u.transpose();
    rows.block<1, 2>(2 * i, 6) = -p.x() * u.head<2>().transpose();
    rows.block<1, 2>(2 * i + 1, 6) = -p.y() * u.head<2>().transpose();
    right.segment<2>(2 * i) = p;
  }
  const LeastSquaresFit fit = least_squares(rows, right);
  if (!fit.determined) return std::nullopt;
  Numbers n = Numbers::Zero();
  n.head<8>() = fit.solution;
  return n;
}

/// Levenberg-Marquardt with differences for derivatives: ten numbers, once or twice a picture.
Numbers refine(const std::vector<Vector2d>& seen, const std::vector<Vector2d>& page, Numbers n) {
  constexpr double kStep = 1e-6;
  double damping = 1e-6;
  VectorXd r = residuals(seen, page, n);
  for (int step = 0; step < kMostSteps; ++step) {
    MatrixXd j(r.size(), n.size());
    for (Eigen::Index c = 0; c < n.size(); ++c) {
      Numbers moved = n;
      moved[c] += kStep;
      j.col(c) = (residuals(seen, page, moved) - r) / kStep;
    }
    MatrixXd normal = inner_product(j, j);
    normal.diagonal() *= 1.0 + damping;
    const Numbers change = -solve_symmetric(normal, VectorXd(j.transpose() * r));
    const VectorXd after = residuals(seen, page, n + change);
    if (after.squaredNorm() < r.squaredNorm()) {
      n += change;
      damping *= 0.1;
      const bool settled = r.squaredNorm() - after.squaredNorm() < 1e-12 * r.squaredNorm();
      r = after;
      if (settled) break;
    } else {
      damping *= 10.0;
      if (damping > 1e3) break;
    }
  }
  return n;
}

}  // namespace

std::optional<CameraMap> CameraMap::fit(const std::vector<PagePair>& pairs, int width_px,
                                        int height_px, int least_pairs) {
  CameraMap map;
  map.middle_px_ = Vector2d(width_px, height_px) / 2;
  map.half_diagonal_px_ = map.middle_px_.norm();
  map.kept_ = pairs;
  std::vector<Vector2d> seen;
  std::vector<Vector2d> page;
  for (const PagePair& pair : pairs) {
    seen.push_back((pair.scan.vec() - map.middle_px_) / map.half_diagonal_px_);
    page.push_back(pair.page.vec() / kUnitMm);
  }
  const auto least = static_cast<std::size_t>(std::max(8, least_pairs));
  while (seen.size() >= least) {
    const auto start = linear_start(seen, page);
    if (!start) return std::nullopt;
    map.numbers_ = refine(seen, page, *start);
    std::vector<double> sizes;
    double squares = 0.0;
    for (std::size_t i = 0; i < seen.size(); ++i) {
      sizes.push_back((page_of(seen[i], map.numbers_) - page[i]).norm() * kUnitMm);
      squares += sizes.back() * sizes.back();
    }
    map.residual_rms_mm_ = std::sqrt(squares / (2.0 * static_cast<double>(seen.size())));
    const double limit =
        std::max(kLeastLimitMm, kRejectSigmas * median(sizes) / kMedianLengthPerSd);
    const auto worst = std::max_element(sizes.begin(), sizes.end());
    if (*worst <= limit) return map;
    const auto index = worst - sizes.begin();
    seen.erase(seen.begin() + index);
    page.erase(page.begin() + index);
    map.kept_.erase(map.kept_.begin() + index);
  }
  return std::nullopt;
}

Vector2d CameraMap::lens(const Point<ScanPx>& p) const {
  return through_lens((p.vec() - middle_px_) / half_diagonal_px_, numbers_);
}

Point<PageMm> CameraMap::page_from_scan(const Point<ScanPx>& p) const {
  const Vector2d page = (perspective(numbers_) * lens(p).homogeneous()).hnormalized();
  return Point<PageMm>::from(page * kUnitMm);
}

Point<ScanPx> CameraMap::scan_from_page(const Point<PageMm>& p) const {
  const Vector2d v =
      (perspective(numbers_).inverse() * Vector2d(p.vec() / kUnitMm).homogeneous()).hnormalized();
  Vector2d u = v;
  for (int i = 0; i < kLensInversions; ++i) {
    const double r2 = u.squaredNorm();
    u = v / (1.0 + numbers_[8] * r2 + numbers_[9] * r2 * r2);
  }
  return Point<ScanPx>::from(middle_px_ + half_diagonal_px_ * u);
}

Affine<ScanPx, PageMm> CameraMap::scan_from_page_around(const Point<PageMm>& p) const {
  constexpr double kReachMm = 0.5;
  const auto across = [&](const Vector2d& by) {
    return Vector2d((scan_from_page(Point<PageMm>::from(p.vec() + by)).vec() -
                     scan_from_page(Point<PageMm>::from(p.vec() - by)).vec()) /
                    (2 * kReachMm));
  };
  Eigen::Matrix2d linear;
  linear << across({kReachMm, 0.0}), across({0.0, kReachMm});
  return {linear, scan_from_page(p).vec() - linear * p.vec()};
}

CameraStand CameraMap::stand() const {
  // Picture from page = K [r1 r2 t], K = diag(f, f, 1) in half diagonals about the middle.
  Matrix3d columns = perspective(numbers_).inverse();
  columns.topRows<2>() /= kFocalOfHalfDiagonal;
  const double scale = (columns.col(0).norm() + columns.col(1).norm()) / 2;
  columns /= scale;
  Matrix3d rotation;
  rotation.col(0) = columns.col(0).normalized();
  rotation.col(1) =
      (columns.col(1) - columns.col(1).dot(rotation.col(0)) * rotation.col(0)).normalized();
  rotation.col(2) = rotation.col(0).cross(rotation.col(1));
  const Vector3d camera = -rotation.transpose() * columns.col(2) * kUnitMm;
  return {{camera.x(), camera.y()}, std::abs(camera.z())};
}

}  // namespace versolay
