// How the back of one sheet landed relative to its front.
#pragma once

#include <Eigen/Core>
#include <array>
#include <string_view>

#include "versolay/frames.h"

namespace versolay {

/// Six numbers (or their covariance) in the order and the units of kRegistrationKeys:
/// dx mm, dy mm, rotation mrad, scale_x ppm, scale_y ppm, shear mrad.
using RegistrationVector = Eigen::Matrix<double, 6, 1>;
using RegistrationMatrix = Eigen::Matrix<double, 6, 6>;
inline constexpr std::array<std::string_view, 6> kRegistrationKeys = {
    "dx_mm", "dy_mm", "rotation_mrad", "scale_x_ppm", "scale_y_ppm", "shear_mrad"};

/// Registration R of a sheet, in the verso view: a point p of the back page lands at
///
///   R(p) = p + e(p),   e(p) = (dx, dy) + [ sx     -th + k ] p
///                                        [ th + k  sy     ]
///
/// dx > 0: the back landed too far right, seen from the back; dy > 0: too far down;
/// th > 0: turned clockwise. p is in mm from the page centre.
struct Registration {
  double dx_mm = 0.0;
  double dy_mm = 0.0;
  double rotation_mrad = 0.0;
  double scale_x_ppm = 0.0;
  double scale_y_ppm = 0.0;
  double shear_mrad = 0.0;

  RegistrationVector vec() const;
  static Registration from(const RegistrationVector& v);

  /// e(p), in mm.
  Eigen::Vector2d displacement_mm(const Point<VersoMm>& p) const;
  /// R: where on the sheet (in the frame of the front, seen from the back) a point of the back
  /// page lands.
  Affine<VersoMm, VersoMm> landed_from_page() const;
  /// R^-1: where the artwork must be put on the page so that it lands where it was meant.
  Affine<VersoMm, VersoMm> page_from_wanted() const;

  bool operator==(const Registration&) const = default;
};

/// de(p)/du for u in RegistrationVector units: 2 x 6, mm per unit.
Eigen::Matrix<double, 2, 6> displacement_jacobian(const Point<VersoMm>& p);

/// The registration whose landed_from_page() is `landed_from_page` (exact for any affine map).
Registration registration_from(const Affine<VersoMm, VersoMm>& landed_from_page);

}  // namespace versolay
