// From a place in the picture to a place on the printed page, through a scanner that is not
// straight, or what a camera's own map leaves.
//
// A flatbed scanner scales and shears the picture (affine), its sensor is bent and its lens
// stretches (smooth functions of the place across the bed), and its carriage does not run evenly
// (a rough function of the place along the bed: everything on one scan line is displaced equally).
// So the map is estimated as
//
//   page = affine(scan) + f(row) + g(column) + h(row, column) + noise of a ring
//
// with f, g, h random functions of stated roughness: universal kriging (Gauss-Markov with a prior
// on the functions). Rings near a place count most, and rings on the same scan line count even
// if they are far away. The sizes of f, g and the noise are estimated from the rings themselves by
// restricted maximum likelihood, separately for the two axes of the scan.
//
// A photograph has no scan lines. There f and g are zero, and the size of h, for paper that is not
// flat and a lens that is not simple, is estimated from the rings.
//
// Accuracy: less than 8 um rms at the holes where the carriage wobbles by 30 um rms, which a
// straight map leaves in full (tests/property/measure_scanner_map_test.cpp).
//
// Source  Cressie, Statistics for Spatial Data, 1993, 3.4 (universal kriging); Patterson and
//         Thompson, Biometrika 58, 1971 (restricted likelihood). Both from memory.
#pragma once

#include <Eigen/Core>
#include <array>
#include <cmath>
#include <optional>
#include <vector>

#include "measure/affine_fit.h"
#include "measure/print_errors.h"

namespace versolay {

enum class PictureKind { scan, photograph };

/// Standard deviations of the parts of the error, mm, along one axis of the scan. The lengths are
/// those of the correlations.
struct ScannerErrors {
  double row_short_mm = 0.0;     // f, 9 mm: unsteady carriage
  double row_long_mm = 0.0;      // f, 45 mm: the same, slower
  double column_short_mm = 0.0;  // g, 9 mm: the printer's swaths; in a picture that was rotated
                                 // after scanning, the carriage
  double column_long_mm = 0.0;   // g, 90 mm: bent sensor, lens
  double local_mm = 0.0;         // h, 25 mm: paper that is not flat; fixed on a scan
  double broad_mm = 0.0;         // h, 80 mm: photographs only
  double ring_mm = 0.0;          // noise of one ring
};

struct PagePlaces {
  std::vector<Point<PageMm>> at;
  /// 2n x 2n: x and y of the first place, x and y of the second, ... mm^2.
  Eigen::MatrixXd covariance_mm2;
  /// The part of it that comes from the noise of the rings. It is the print's, mostly: another scan
  /// of the same side has it again.
  Eigen::MatrixXd ring_covariance_mm2;
  /// How the places move with errors of the rings: 2n x 2r, in the order of the rings given to
  /// fit(); columns of rings that were left out are 0.
  Eigen::MatrixXd ring_response;
};

class ScannerMap {
 public:
  /// Rings that disagree with the others by more than 5 standard deviations (and 20 um) are left
  /// out; see kept(). @return nullopt when fewer than 12 rings remain.
  static std::optional<ScannerMap> fit(const std::vector<PagePair>& rings,
                                       PictureKind kind = PictureKind::scan);

  /// Best estimate of the page places of these scan places.
  std::vector<Point<PageMm>> places_on_page(const std::vector<Point<ScanPx>>& places) const;
  /// The same, and their joint covariance.
  PagePlaces page_places(const std::vector<Point<ScanPx>>& places) const;

  /// Errors of the printer's own swaths and rollers. They are not part of page_places(), which is
  /// true to the ink beside a place. Across the bed a scanner is smooth, so there the rings show
  /// the printer's unevenness; along the bed the carriage masks it, and a usual printer is assumed,
  /// or less if the rings of this scan show less.
  PrintErrors print_errors() const;

  /// Covariance of carriage motion within less than the diameter of a ring, which no ring shows:
  /// 2n x 2n as above, mm^2. Along the carriage only, equal for all places on one scan line.
  /// @param sd_mm   of each place; callers know how much of a wobble its shape averages away.
  /// @param shared  share of the variance that is common to all places, 0 to 1.
  Eigen::MatrixXd carriage_covariance_mm2(const std::vector<Point<ScanPx>>& places,
                                          const Eigen::VectorXd& sd_mm, double shared) const;

  bool page_lies_upright() const { return std::abs(page_from_bed_(0, 0)) > M_SQRT1_2; }
  /// Along the rows and along the columns of the scan.
  const Eigen::Vector2d& mm_per_px() const { return mm_per_px_; }
  const std::vector<bool>& kept() const { return kept_; }
  /// Distance of each ring from the prediction of all others (that were kept), mm.
  /// @param rings  those given to fit().
  std::vector<double> prediction_errors_mm(const std::vector<PagePair>& rings) const;
  /// Along the columns (x) and the rows (y) of the scan.
  const std::array<ScannerErrors, 2>& errors() const { return errors_; }
  /// Noise of a ring, one axis, mm.
  double ring_sd_mm() const { return std::hypot(errors_[0].ring_mm, errors_[1].ring_mm) / M_SQRT2; }

 private:
  /// Kriging of one coordinate.
  struct Axis {
    ScannerErrors errors;
    Eigen::MatrixXd weights_from_values;  // K^-1 of the rings
    Eigen::Vector3d trend;
    Eigen::VectorXd solved_residual;  // K^-1 (values - trend)
    Eigen::Matrix3d trend_covariance;
  };

  explicit ScannerMap(PictureKind kind) : kind_(kind) {}
  void solve(const std::vector<PagePair>& rings, bool estimate_errors);
  std::optional<std::size_t> worst_outlier() const;
  Eigen::Vector2d bed_mm(const Point<ScanPx>& p) const;
  Eigen::Matrix2Xd bed_mm(const std::vector<Point<ScanPx>>& places) const;
  std::vector<Point<PageMm>> places_on_page(const Eigen::Matrix2Xd& bed_mm,
                                            const std::array<Eigen::MatrixXd, 2>& to_rings) const;
  Eigen::MatrixXd on_page(const Eigen::MatrixXd& along_x, const Eigen::MatrixXd& along_y) const;

  PictureKind kind_;
  std::vector<bool> kept_;
  std::array<ScannerErrors, 2> errors_;
  std::array<Axis, 2> axes_;
  Eigen::Matrix2Xd rings_mm_;  // of the kept rings, scan axes, from the middle
  Eigen::Vector2d middle_px_{0.0, 0.0};
  Eigen::Vector2d mm_per_px_{0.0, 0.0};  // along the rows, along the columns
  Eigen::Matrix2d page_from_bed_ = Eigen::Matrix2d::Identity();  // a rotation
};

}  // namespace versolay
