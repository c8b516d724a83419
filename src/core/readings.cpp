#include <algorithm>

#include "core/findings.h"
#include "versolay/sheet_readings.h"

namespace versolay {

std::string_view to_string(RegistrationModel model) {
  switch (model) {
    case RegistrationModel::rigid:
      return "rigid";
    case RegistrationModel::similarity:
      return "similarity";
    case RegistrationModel::affine:
      return "affine";
  }
  return "";
}

bool SheetReading::rotation_measured() const {
  return std::none_of(warnings.begin(), warnings.end(),
                      [](const Notice& n) { return n == findings::rotation_unknown; });
}

std::optional<RegistrationModel> registration_model_from(std::string_view text) {
  for (RegistrationModel m :
       {RegistrationModel::rigid, RegistrationModel::similarity, RegistrationModel::affine}) {
    if (text == to_string(m)) return m;
  }
  return std::nullopt;
}

std::string to_string(const Datums& datums) {
  if (datums.by_eye) return "by eye";
  std::string text = datums.punched && datums.pricked ? "punched and pricked holes"
                     : datums.punched                 ? "punched holes"
                     : datums.pricked                 ? "pricked holes"
                                                      : "";
  if (datums.edges) text += text.empty() ? "paper edges" : " and paper edges";
  return text;
}

Datums datums_from(std::string_view text) {
  if (text == "holes") return {.punched = true};
  if (text == "edges") return {.edges = true};
  for (int bits = 0; bits < 16; ++bits) {
    const Datums datums{(bits & 1) != 0, (bits & 2) != 0, (bits & 4) != 0, (bits & 8) != 0};
    if (to_string(datums) == text) return datums;
  }
  return {};
}

SheetReading without_correction(SheetReading sheet) {
  if (!sheet.correction) return sheet;
  const Affine<VersoMm, VersoMm> printed_from_art = sheet.correction->landed_from_page();
  const Affine<VersoMm, VersoMm> art_from_printed = printed_from_art.inverse();
  const auto composed = [&](const RegistrationVector& left) {
    return registration_from(Registration::from(left).landed_from_page() * art_from_printed).vec();
  };
  // S C^-1 is affine in the six numbers of S, so these columns are exact.
  const RegistrationVector at_zero = composed(RegistrationVector::Zero());
  RegistrationMatrix jacobian;
  for (int i = 0; i < 6; ++i) {
    jacobian.col(i) = composed(RegistrationVector::Unit(i)) - at_zero;
  }
  sheet.registration = Registration::from(composed(sheet.registration.vec()));
  sheet.covariance = jacobian * sheet.covariance * jacobian.transpose();
  for (FeatureReading& f : sheet.features) {
    const Eigen::Vector2d moved_mm = f.at.vec() - printed_from_art(f.at).vec();
    f.at = printed_from_art(f.at);
    f.e_mm += f.normal ? Eigen::Vector2d(*f.normal * f.normal->dot(moved_mm)) : moved_mm;
  }
  if (sheet.correction->shear_mrad != 0 ||
      sheet.correction->scale_x_ppm != sheet.correction->scale_y_ppm) {
    sheet.model = RegistrationModel::affine;
  } else if (sheet.correction->scale_x_ppm != 0) {
    sheet.model = std::max(sheet.model, RegistrationModel::similarity);
  }
  sheet.correction.reset();
  return sheet;
}

}  // namespace versolay
