#include "core/registration_json.h"

#include <Eigen/Eigenvalues>
#include <cmath>

#include "core/findings.h"

namespace versolay {
namespace {

constexpr std::array<double, 6> kLargest = {100.0, 100.0, 100.0, 1e5, 1e5, 100.0};
constexpr std::array<int, 6> kDecimals = {6, 6, 6, 3, 3, 6};
constexpr std::size_t kComponentsAlwaysThere = 3;

}  // namespace

Json json_of(const Registration& registration) {
  const RegistrationVector v = registration.vec();
  Json json = Json::object();
  for (std::size_t i = 0; i < kRegistrationKeys.size(); ++i) {
    json[std::string(kRegistrationKeys[i])] = rounded(v[static_cast<int>(i)], kDecimals[i]);
  }
  return json;
}

Registration registration_at(const JsonPlace& place) {
  RegistrationVector v = RegistrationVector::Zero();
  for (std::size_t i = 0; i < kRegistrationKeys.size(); ++i) {
    if (i >= kComponentsAlwaysThere && !place.has(kRegistrationKeys[i])) continue;
    v[static_cast<int>(i)] = place.at(kRegistrationKeys[i]).number_in(-kLargest[i], kLargest[i]);
  }
  return Registration::from(v);
}

RegistrationMatrix covariance_at(const JsonPlace& place) {
  const RegistrationMatrix m = matrix_from(place, 6, 6);
  // Scaled by the standard deviations, so that one tolerance fits mm, mrad and ppm.
  RegistrationVector inverse_sd;
  for (int i = 0; i < 6; ++i) {
    if (m(i, i) < 0) {
      throw place.problem(findings::variance_negative(std::string(kRegistrationKeys[i])));
    }
    const double largest = kLargest[static_cast<std::size_t>(i)];
    if (!(m(i, i) <= largest * largest)) {
      throw place.problem(findings::variance_out_of_range(
          std::string(kRegistrationKeys[static_cast<std::size_t>(i)]), m(i, i), largest * largest));
    }
    inverse_sd[i] = m(i, i) > 0 ? 1 / std::sqrt(m(i, i)) : 0.0;
  }
  for (int r = 0; r < 6; ++r) {
    for (int c = 0; c < 6; ++c) {
      const bool alone = inverse_sd[r] == 0 || inverse_sd[c] == 0;
      if (alone && r != c && m(r, c) != 0) {
        throw place.problem(findings::covariance_of_a_constant(r, c));
      }
    }
  }
  const RegistrationMatrix correlation = inverse_sd.asDiagonal() * m * inverse_sd.asDiagonal();
  constexpr double kTolerance = 1e-6;
  if (!correlation.allFinite() ||
      !((correlation - correlation.transpose()).cwiseAbs().maxCoeff() <= kTolerance)) {
    throw place.problem(findings::covariance_not_symmetric());
  }
  const Eigen::SelfAdjointEigenSolver<RegistrationMatrix> solver(correlation,
                                                                 Eigen::EigenvaluesOnly);
  if (!(solver.eigenvalues().minCoeff() >= -kTolerance)) {
    throw place.problem(findings::covariance_not_positive());
  }
  return (m + m.transpose()) / 2;
}

void add_printed_scale(const PrintedScale& scale, Json& object) {
  if (scale.x) object["printed_scale_x"] = rounded(*scale.x, 7);
  if (scale.y) object["printed_scale_y"] = rounded(*scale.y, 7);
}

PrintedScale printed_scale_at(const JsonPlace& object) {
  const auto read = [&](std::string_view key) -> std::optional<double> {
    if (!object.has(key)) return std::nullopt;
    return object.at(key).number_in(0.5, 2.0);
  };
  return {read("printed_scale_x"), read("printed_scale_y")};
}

Turn turn_at(const JsonPlace& document) {
  const JsonPlace place = document.at("turn");
  const auto turn = turn_from(place.text());
  if (!turn) throw place.problem(findings::not_a_turn());
  return *turn;
}

Paper paper_at(const JsonPlace& document) {
  const auto sides = document.at("paper_mm").items();
  if (sides.size() != 2) throw document.at("paper_mm").problem(findings::not_a_size());
  return paper_of_size(sides[0].number_in(100.0, 600.0), sides[1].number_in(100.0, 600.0));
}

Json json_of(const Paper& paper) { return Json::array({paper.width_mm, paper.height_mm}); }

}  // namespace versolay
