#include "core/print_lay_json.h"

#include "core/findings.h"
#include "versolay/registration.h"

namespace versolay {

Json json_of(const PrintLay& lay) {
  return {{"dx_mm", rounded(lay.dx_mm, 6)},
          {"dy_mm", rounded(lay.dy_mm, 6)},
          {"rotation_mrad", rounded(lay.rotation_mrad, 6)},
          {"paper_width_mm", rounded(lay.paper_width_mm, 4)},
          {"paper_height_mm", rounded(lay.paper_height_mm, 4)},
          {"covariance", json_matrix(lay.covariance)}};
}

PrintLay print_lay_at(const JsonPlace& place) {
  PrintLay lay{place.at("dx_mm").number_in(-100, 100), place.at("dy_mm").number_in(-100, 100),
               place.at("rotation_mrad").number_in(-100, 100),
               place.at("paper_width_mm").number_in(10, 2000),
               place.at("paper_height_mm").number_in(10, 2000)};
  if (!place.has("covariance")) return lay;
  lay.covariance = matrix_from(place.at("covariance"), 3, 3);
  for (Eigen::Index i = 0; i < 3; ++i) {
    if (lay.covariance(i, i) >= 0) continue;
    throw place.at("covariance")
        .problem(findings::variance_negative(
            std::string(kRegistrationKeys[static_cast<std::size_t>(i)])));
  }
  return lay;
}

}  // namespace versolay
