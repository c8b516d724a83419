#include "measure/scanner_map.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <limits>

#include "core/linear_algebra.h"
#include "measure/median.h"

namespace versolay {
namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

// Correlation lengths, from memory. A carriage's unsteadiness runs from about a centimetre upwards;
// a sensor's bend is as long as the bed.
constexpr double kShortMm = 9.0;
constexpr double kRowLongMm = 45.0;
constexpr double kColumnLongMm = 90.0;
// Gears and belts: periods of a few millimetres, which a ring of 5 mm averages away.
constexpr double kUnresolvedMm = 1.5;
// What neighbours share beyond rows and columns (paper that is not flat); on a scanner's glass it
// is small, and not estimated.
constexpr double kScanLocalSdMm = 0.004;
constexpr double kLocalMm = 25.0;
constexpr double kBroadMm = 80.0;

// Unevenness of a printer's transport, one axis: what is assumed where it cannot be seen, and the
// most that is believed where it can (a scanner's sensor may be pieced together). From memory of
// home inkjets: 5 to 10 um a swath, both ways, and rollers out of round by as much (their
// amplitude), which moves the ink along the feed only. Pages are taken to be fed along their y.
constexpr double kUsualPrintSdMm = 0.008;
constexpr double kUsualRollerSdMm = 0.007;
constexpr double kMostPrintSdMm = 0.025;

constexpr double kStraightMm = 0.35;  // scanners wobble and sag by this much and more
constexpr double kOutlierSigmas = 5.0;
constexpr double kLeastOutlierMm = 0.020;
constexpr int kLeastRings = 12;

/// Correlations between two sets of places, one matrix for each part of the error.
struct Parts {
  MatrixXd row_short, row_long, column_short, column_long, local, broad;

  Parts(const Eigen::Matrix2Xd& a, const Eigen::Matrix2Xd& b) {
    for (MatrixXd* m : {&row_short, &row_long, &column_short, &column_long, &local, &broad}) {
      m->resize(a.cols(), b.cols());
    }
    for (Eigen::Index i = 0; i < a.cols(); ++i) {
      for (Eigen::Index j = 0; j < b.cols(); ++j) {
        const Eigen::Vector2d d = a.col(i) - b.col(j);
        row_short(i, j) = correlation(d.y(), kShortMm);
        row_long(i, j) = correlation(d.y(), kRowLongMm);
        column_short(i, j) = correlation(d.x(), kShortMm);
        column_long(i, j) = correlation(d.x(), kColumnLongMm);
        local(i, j) = correlation(d.norm(), kLocalMm);
        broad(i, j) = correlation(d.norm(), kBroadMm);
      }
    }
  }

  /// Without the noise of the rings.
  MatrixXd covariance(const ScannerErrors& e) const {
    const auto square = [](double v) { return v * v; };
    return square(e.row_short_mm) * row_short + square(e.row_long_mm) * row_long +
           square(e.column_short_mm) * column_short + square(e.column_long_mm) * column_long +
           square(e.local_mm) * local + square(e.broad_mm) * broad;
  }
};

MatrixXd trend_rows(const Eigen::Matrix2Xd& places_mm) {
  MatrixXd rows(places_mm.cols(), 3);
  rows.col(0).setOnes();
  rows.rightCols<2>() = places_mm.transpose();
  return rows;
}

/// Minus twice the restricted log likelihood, up to a constant.
double misfit(const Parts& parts, const ScannerErrors& errors, const MatrixXd& trend,
              const VectorXd& values) {
  MatrixXd k = parts.covariance(errors);
  k.diagonal().array() += errors.ring_mm * errors.ring_mm;
  const Cholesky factor(k);
  if (!factor.exists()) return std::numeric_limits<double>::infinity();
  const MatrixXd white_trend = factor.whitened(trend);
  const VectorXd white_values = factor.whitened(values);
  const Cholesky normal(inner_product(white_trend, white_trend));
  const VectorXd coefficients = normal.solve(VectorXd(white_trend.transpose() * white_values));
  return factor.log_determinant() + normal.log_determinant() +
         (white_values - white_trend * coefficients).squaredNorm();
}

constexpr double kSizeFactor = 3.0;  // one sigma of a size about the usual one, from memory
constexpr std::array kSizesMm = {0.001, 0.003, 0.006, 0.012, 0.025, 0.050, 0.100, 0.200};

/// A part of the error whose size is estimated, and the index of its usual size, to begin with.
struct SoughtPart {
  double ScannerErrors::*size;
  std::size_t usual;
};

/// Of scanners rather large than small. Bent sensors: tenths of a millimetre on the width of a bed
/// (from memory).
const std::vector<SoughtPart>& sought_parts(PictureKind kind) {
  static const std::vector<SoughtPart> scan = {{&ScannerErrors::row_short_mm, 4},
                                               {&ScannerErrors::row_long_mm, 5},
                                               {&ScannerErrors::column_short_mm, 1},
                                               {&ScannerErrors::column_long_mm, 6},
                                               {&ScannerErrors::ring_mm, 2}};
  static const std::vector<SoughtPart> photograph = {
      {&ScannerErrors::local_mm, 2}, {&ScannerErrors::broad_mm, 4}, {&ScannerErrors::ring_mm, 2}};
  return kind == PictureKind::scan ? scan : photograph;
}

/// What is known of scanners before any ring, as minus twice a log density: every size is the usual
/// one, or up to three times more or less (one sigma). Rings all over a page hardly notice. Rings
/// along two edges say nothing about what varies from the one to the other: any size fits them, and
/// too small a one would be believed. Nothing is known of photographs.
double surprise(PictureKind kind, const std::vector<std::size_t>& sizes) {
  if (kind != PictureKind::scan) return 0.0;
  static const double kSpread = std::log(kSizeFactor);
  const std::vector<SoughtPart>& sought = sought_parts(kind);
  double sum = 0.0;
  for (std::size_t part = 0; part < sought.size(); ++part) {
    sum += std::pow(std::log(kSizesMm[sizes[part]] / kSizesMm[sought[part].usual]) / kSpread, 2);
  }
  return sum;
}

/// Walks a grid of sizes downhill, one part of the error at a time: coarse, but the estimate
/// depends on the sizes only weakly.
ScannerErrors most_likely(PictureKind kind, const Parts& parts, const MatrixXd& trend,
                          const VectorXd& values) {
  const std::vector<SoughtPart>& sought = sought_parts(kind);
  std::vector<std::size_t> at;
  for (const SoughtPart& part : sought) at.push_back(part.usual);
  const auto errors_at = [&](const std::vector<std::size_t>& indices) {
    ScannerErrors errors;
    if (kind == PictureKind::scan) errors.local_mm = kScanLocalSdMm;
    for (std::size_t part = 0; part < sought.size(); ++part) {
      errors.*sought[part].size = kSizesMm[indices[part]];
    }
    return errors;
  };
  const auto misfit_at = [&](const std::vector<std::size_t>& indices) {
    return misfit(parts, errors_at(indices), trend, values) + surprise(kind, indices);
  };
  double least = misfit_at(at);
  for (bool moved = true; moved;) {
    moved = false;
    for (std::size_t part = 0; part < sought.size(); ++part) {
      for (const int step : {1, -1}) {
        auto tried = at;
        while (tried[part] + step < kSizesMm.size()) {  // 0 - 1 wraps beyond the end
          tried[part] += step;
          const double m = misfit_at(tried);
          if (m >= least) break;
          least = m;
          at = tried;
          moved = true;
        }
      }
    }
  }
  return errors_at(at);
}

}  // namespace

Eigen::Vector2d ScannerMap::bed_mm(const Point<ScanPx>& p) const {
  return (p.vec() - middle_px_).cwiseProduct(mm_per_px_);
}

Eigen::Matrix2Xd ScannerMap::bed_mm(const std::vector<Point<ScanPx>>& places) const {
  Eigen::Matrix2Xd at(2, static_cast<Eigen::Index>(places.size()));
  for (std::size_t i = 0; i < places.size(); ++i) {
    at.col(static_cast<Eigen::Index>(i)) = bed_mm(places[i]);
  }
  return at;
}

void ScannerMap::solve(const std::vector<PagePair>& rings, bool estimate_errors) {
  const auto n = std::count(kept_.begin(), kept_.end(), true);
  rings_mm_.resize(2, n);
  Eigen::Matrix2Xd page(2, n);
  Eigen::Index column = 0;
  for (std::size_t i = 0; i < rings.size(); ++i) {
    if (!kept_[i]) continue;
    rings_mm_.col(column) = bed_mm(rings[i].scan);
    page.col(column++) = rings[i].page.vec();
  }
  const Eigen::Matrix2Xd along_bed = page_from_bed_.transpose() * page;
  const Parts parts(rings_mm_, rings_mm_);
  const MatrixXd trend = trend_rows(rings_mm_);
  for (std::size_t a = 0; a < 2; ++a) {
    Axis& axis = axes_[a];
    const VectorXd values = along_bed.row(static_cast<Eigen::Index>(a)).transpose();
    if (estimate_errors) errors_[a] = most_likely(kind_, parts, trend, values);
    axis.errors = errors_[a];
    MatrixXd k = parts.covariance(axis.errors);
    k.diagonal().array() += axis.errors.ring_mm * axis.errors.ring_mm;
    axis.weights_from_values = Cholesky(k).inverse();
    const MatrixXd weighted_trend = product(axis.weights_from_values, trend);
    axis.trend_covariance = inverse_of(inner_product(trend, weighted_trend));
    axis.trend = axis.trend_covariance * (trend.transpose() * (axis.weights_from_values * values));
    axis.solved_residual = axis.weights_from_values * (values - trend * axis.trend);
  }
}

std::optional<ScannerMap> ScannerMap::fit(const std::vector<PagePair>& rings, PictureKind kind) {
  const auto start = fit_page(rings, kStraightMm, kLeastRings);
  if (!start) return std::nullopt;
  ScannerMap map(kind);
  map.kept_ = start->kept;
  map.middle_px_ = start->centroid_px;
  map.mm_per_px_ = start->page_from_scan.linear().colwise().norm();
  const Eigen::Matrix2d linear =
      start->page_from_scan.linear() * map.mm_per_px_.cwiseInverse().asDiagonal();
  const double angle = std::atan2(linear(1, 0) - linear(0, 1), linear(0, 0) + linear(1, 1));
  map.page_from_bed_ << std::cos(angle), -std::sin(angle), std::sin(angle), std::cos(angle);

  // The sizes of the errors are estimated, then what stands out is dropped one by one under these
  // sizes, and so again until nothing stands out under sizes that it did not spoil.
  while (true) {
    map.solve(rings, true);
    auto outlier = map.worst_outlier();
    if (!outlier) return map;
    while (outlier) {
      map.kept_[*outlier] = false;
      if (std::count(map.kept_.begin(), map.kept_.end(), true) < kLeastRings) return std::nullopt;
      map.solve(rings, false);
      outlier = map.worst_outlier();
    }
  }
}

/// By the error of each ring as predicted from all the others, in closed form, in units of what
/// the model expects. Many outliers swell the estimated sizes and hide behind them; so the median
/// of these errors may tighten the limit, but never widen it.
std::optional<std::size_t> ScannerMap::worst_outlier() const {
  const Eigen::Index n = rings_mm_.cols();
  std::optional<Eigen::Index> worst_ring;
  double worst = 1.0;
  for (const Axis& axis : axes_) {
    const Eigen::ArrayXd precision = axis.weights_from_values.diagonal().array();
    const Eigen::ArrayXd error_mm = axis.solved_residual.array().abs() / precision;
    Eigen::ArrayXd standardised = error_mm * precision.sqrt();
    std::nth_element(standardised.begin(), standardised.begin() + n / 2, standardised.end());
    const double robust_sd = std::min(1.0, kSdPerMedian * standardised[n / 2]);
    for (Eigen::Index i = 0; i < n; ++i) {
      const double limit =
          std::max(kLeastOutlierMm, kOutlierSigmas * robust_sd / std::sqrt(precision[i]));
      if (error_mm[i] / limit > worst) {
        worst = error_mm[i] / limit;
        worst_ring = i;
      }
    }
  }
  if (!worst_ring) return std::nullopt;
  Eigen::Index column = 0;
  for (std::size_t i = 0; i < kept_.size(); ++i) {
    if (kept_[i] && column++ == *worst_ring) return i;
  }
  return std::nullopt;
}

std::vector<double> ScannerMap::prediction_errors_mm(const std::vector<PagePair>& rings) const {
  Eigen::ArrayXd squares = Eigen::ArrayXd::Zero(rings_mm_.cols());
  for (const Axis& axis : axes_) {
    squares +=
        (axis.solved_residual.array() / axis.weights_from_values.diagonal().array()).square();
  }
  std::vector<Point<ScanPx>> left_out;
  for (std::size_t i = 0; i < rings.size(); ++i) {
    if (!kept_[i]) left_out.push_back(rings[i].scan);
  }
  const std::vector<Point<PageMm>> predicted = places_on_page(left_out);
  std::vector<double> errors(rings.size());
  Eigen::Index kept = 0;
  std::size_t other = 0;
  for (std::size_t i = 0; i < rings.size(); ++i) {
    errors[i] = kept_[i] ? std::sqrt(squares[kept++])
                         : (predicted[other++].vec() - rings[i].page.vec()).norm();
  }
  return errors;
}

/// @param to_rings  covariance of the errors at the places (rows) and the rings, for each axis.
std::vector<Point<PageMm>> ScannerMap::places_on_page(
    const Eigen::Matrix2Xd& bed_mm, const std::array<MatrixXd, 2>& to_rings) const {
  const MatrixXd trend = trend_rows(bed_mm);
  Eigen::Matrix2Xd along_bed(2, bed_mm.cols());
  for (std::size_t a = 0; a < 2; ++a) {
    along_bed.row(static_cast<Eigen::Index>(a)) =
        (trend * axes_[a].trend + to_rings[a] * axes_[a].solved_residual).transpose();
  }
  std::vector<Point<PageMm>> at;
  for (Eigen::Index i = 0; i < bed_mm.cols(); ++i) {
    at.push_back(Point<PageMm>::from(page_from_bed_ * along_bed.col(i)));
  }
  return at;
}

std::vector<Point<PageMm>> ScannerMap::places_on_page(
    const std::vector<Point<ScanPx>>& places) const {
  const Eigen::Matrix2Xd at = bed_mm(places);
  const Parts to_rings(at, rings_mm_);
  return places_on_page(
      at, {to_rings.covariance(axes_[0].errors), to_rings.covariance(axes_[1].errors)});
}

PagePlaces ScannerMap::page_places(const std::vector<Point<ScanPx>>& places) const {
  const Eigen::Matrix2Xd at = bed_mm(places);
  const Parts to_rings(at, rings_mm_);
  const Parts among(at, at);
  const MatrixXd trend = trend_rows(at);
  const MatrixXd ring_trend = trend_rows(rings_mm_);

  std::array<MatrixXd, 2> k;  // to the rings
  std::array<MatrixXd, 2> covariance;
  std::array<MatrixXd, 2> weights;  // of the rings in each place
  for (std::size_t a = 0; a < 2; ++a) {
    const Axis& axis = axes_[a];
    k[a] = to_rings.covariance(axis.errors);
    const MatrixXd gain = product(k[a], axis.weights_from_values);
    const MatrixXd trend_left = trend - product(gain, ring_trend);
    covariance[a] = among.covariance(axis.errors) - outer_product(gain, k[a]) +
                    propagated(trend_left, axis.trend_covariance);
    const MatrixXd of_trend = outer_product(product(trend_left, axis.trend_covariance), ring_trend);
    weights[a] = gain + product(of_trend, axis.weights_from_values);
  }

  PagePlaces result;
  result.at = places_on_page(at, k);
  result.covariance_mm2 = on_page(covariance[0], covariance[1]);
  const auto from_rings = [&](std::size_t a) -> MatrixXd {
    return std::pow(errors_[a].ring_mm, 2) * outer_product(weights[a], weights[a]);
  };
  result.ring_covariance_mm2 = on_page(from_rings(0), from_rings(1));
  const MatrixXd response = on_page(weights[0], weights[1]);
  result.ring_response = MatrixXd::Zero(2 * at.cols(), 2 * static_cast<Eigen::Index>(kept_.size()));
  Eigen::Index column = 0;
  for (std::size_t ring = 0; ring < kept_.size(); ++ring) {
    if (!kept_[ring]) continue;
    result.ring_response.middleCols<2>(static_cast<Eigen::Index>(2 * ring)) =
        response.middleCols<2>(2 * column++);
  }
  return result;
}

/// From one matrix for each axis of the scan to one of 2 x 2 blocks in the axes of the page.
MatrixXd ScannerMap::on_page(const MatrixXd& along_x, const MatrixXd& along_y) const {
  MatrixXd page(2 * along_x.rows(), 2 * along_x.cols());
  for (Eigen::Index i = 0; i < along_x.rows(); ++i) {
    for (Eigen::Index j = 0; j < along_x.cols(); ++j) {
      const Eigen::Vector2d diagonal(along_x(i, j), along_y(i, j));
      page.block<2, 2>(2 * i, 2 * j) =
          page_from_bed_ * diagonal.asDiagonal() * page_from_bed_.transpose();
    }
  }
  return page;
}

PrintErrors ScannerMap::print_errors() const {
  const auto variances_on_page = [&](double along_x, double along_y) -> Eigen::Matrix2d {
    return page_from_bed_ * Eigen::Vector2d(along_x * along_x, along_y * along_y).asDiagonal() *
           page_from_bed_.transpose();
  };
  const auto seen = [](const ScannerErrors& e) {
    return std::min(e.column_short_mm, kMostPrintSdMm);
  };
  const auto rows = [](const ScannerErrors& e, double at_most_mm) {
    return std::min(std::hypot(e.row_short_mm, e.row_long_mm), at_most_mm);
  };
  const double swath_and_roller_mm = std::hypot(kUsualPrintSdMm, kUsualRollerSdMm);
  const auto& [x, y] = errors_;
  PrintErrors errors;
  auto& [along_page_x, along_page_y] = errors.varying_along_mm2;
  if (kind_ == PictureKind::photograph) {  // neither axis separates the printer from paper and lens
    along_page_x = variances_on_page(kUsualPrintSdMm, kUsualPrintSdMm);
    along_page_y.diagonal() << kUsualPrintSdMm * kUsualPrintSdMm,
        swath_and_roller_mm * swath_and_roller_mm;
    return errors;
  }
  if (page_lies_upright()) {
    along_page_x = variances_on_page(seen(x), seen(y));
    along_page_y = variances_on_page(rows(x, kUsualPrintSdMm), rows(y, swath_and_roller_mm));
  } else {
    // The page's y lies across the bed, where a roller is too slow to be told from a bent sensor.
    const double roller_mm = std::min(x.column_long_mm, kUsualRollerSdMm);
    along_page_x = variances_on_page(rows(x, kUsualPrintSdMm), rows(y, kUsualPrintSdMm));
    along_page_y = variances_on_page(std::hypot(seen(x), roller_mm), seen(y));
  }
  return errors;
}

MatrixXd ScannerMap::carriage_covariance_mm2(const std::vector<Point<ScanPx>>& places,
                                             const VectorXd& sd_mm, double shared) const {
  const auto n = static_cast<Eigen::Index>(places.size());
  MatrixXd along_carriage(n, n);
  for (Eigen::Index i = 0; i < n; ++i) {
    for (Eigen::Index j = 0; j < n; ++j) {
      const double apart_px =
          places[static_cast<std::size_t>(i)].y - places[static_cast<std::size_t>(j)].y;
      const double local = correlation(apart_px * mm_per_px_.y(), kUnresolvedMm);
      along_carriage(i, j) = sd_mm[i] * sd_mm[j] * (shared + (1 - shared) * local);
    }
  }
  return on_page(MatrixXd::Zero(n, n), along_carriage);
}

}  // namespace versolay
