#include "versolay/registration.h"

namespace versolay {

RegistrationVector Registration::vec() const {
  RegistrationVector v;
  v << dx_mm, dy_mm, rotation_mrad, scale_x_ppm, scale_y_ppm, shear_mrad;
  return v;
}

Registration Registration::from(const RegistrationVector& v) {
  return {v[0], v[1], v[2], v[3], v[4], v[5]};
}

Eigen::Vector2d Registration::displacement_mm(const Point<VersoMm>& p) const {
  return displacement_jacobian(p) * vec();
}

Affine<VersoMm, VersoMm> Registration::landed_from_page() const {
  const double th = rotation_mrad * 1e-3;
  const double k = shear_mrad * 1e-3;
  Eigen::Matrix2d linear;
  linear << 1.0 + scale_x_ppm * 1e-6, -th + k, th + k, 1.0 + scale_y_ppm * 1e-6;
  return {linear, {dx_mm, dy_mm}};
}

Affine<VersoMm, VersoMm> Registration::page_from_wanted() const {
  return landed_from_page().inverse();
}

Eigen::Matrix<double, 2, 6> displacement_jacobian(const Point<VersoMm>& p) {
  Eigen::Matrix<double, 2, 6> j;
  j << 1, 0, -p.y * 1e-3, p.x * 1e-6, 0, p.y * 1e-3,  //
      0, 1, p.x * 1e-3, 0, p.y * 1e-6, p.x * 1e-3;
  return j;
}

Registration registration_from(const Affine<VersoMm, VersoMm>& landed_from_page) {
  const Eigen::Matrix2d d = landed_from_page.linear() - Eigen::Matrix2d::Identity();
  Registration r;
  r.dx_mm = landed_from_page.offset().x();
  r.dy_mm = landed_from_page.offset().y();
  r.rotation_mrad = (d(1, 0) - d(0, 1)) / 2 * 1e3;
  r.shear_mrad = (d(1, 0) + d(0, 1)) / 2 * 1e3;
  r.scale_x_ppm = d(0, 0) * 1e6;
  r.scale_y_ppm = d(1, 1) * 1e6;
  return r;
}

}  // namespace versolay
