#include "core/studies_json.h"

#include "core/findings.h"
#include "core/registration_json.h"
#include "versolay/registration.h"

namespace versolay {
namespace {

constexpr int kStudyDecimals = 6;
constexpr double kLargestNumber = 1e9;  // mm, mrad, or what is made of them

Json three(const Eigen::Vector3d& v) {
  Json json;
  for (std::size_t i = 0; i < 3; ++i) {
    json[std::string(kRegistrationKeys[i])] =
        rounded(v[static_cast<Eigen::Index>(i)], kStudyDecimals);
  }
  return json;
}

Json json_of(const GaugeReport& gauge) {
  Json components = Json::array();
  for (const GaugeComponent& c : gauge.components) {
    Json json = {{"component", c.component},
                 {"repeatability_sd", rounded(c.repeatability_sd, kStudyDecimals)},
                 {"repeatability_low", rounded(c.repeatability_low, kStudyDecimals)},
                 {"repeatability_high", rounded(c.repeatability_high, kStudyDecimals)}};
    if (c.has_spread) {
      json["distinguishable"] = c.distinguishable;
      json["spread_sd"] = rounded(c.spread_sd, kStudyDecimals);
      json["spread_sd_high"] = rounded(c.spread_sd_high, kStudyDecimals);
      json["share_of_variance"] = rounded(c.share, kStudyDecimals);
      json["distinct_categories"] = c.distinct_categories;
    }
    components.push_back(std::move(json));
  }
  return {{"sheets", gauge.sheets},
          {"degrees_of_freedom", gauge.dof},
          {"enough_repeats", gauge.enough},
          {"components", std::move(components)}};
}

Json json_of(const OtherTurn& other) {
  return {{"turn", to_string(other.turn)},
          {"sheets", other.sheets},
          {"mean", three(other.mean)},
          {"half_width_95", three(other.half_width)},
          {"spread_sd", three(other.spread_sd)}};
}

Json json_of(const FedRoundCheck& check) {
  return {{"sheets_upright", check.sheets_upright},
          {"sheets_round", check.sheets_round},
          {"bias_x_mm", rounded(check.bias_mm.x(), kStudyDecimals)},
          {"bias_y_mm", rounded(check.bias_mm.y(), kStudyDecimals)},
          {"half_width_95_x_mm", rounded(check.half_width_mm.x(), kStudyDecimals)},
          {"half_width_95_y_mm", rounded(check.half_width_mm.y(), kStudyDecimals)},
          {"p_value", rounded(check.p_value, kStudyDecimals)},
          {"real", check.real}};
}

Eigen::Vector3d three_at(const JsonPlace& place) {
  Eigen::Vector3d v;
  for (std::size_t i = 0; i < 3; ++i) {
    v[static_cast<Eigen::Index>(i)] =
        place.at(kRegistrationKeys[i]).number_in(-kLargestNumber, kLargestNumber);
  }
  return v;
}

GaugeReport gauge_at(const JsonPlace& place) {
  GaugeReport gauge{place.at("sheets").integer(),
                    place.at("degrees_of_freedom").integer(),
                    place.at("enough_repeats").flag(),
                    {}};
  for (const JsonPlace& c : place.at("components").items()) {
    GaugeComponent component;
    component.component = c.at("component").text();
    component.repeatability_sd =
        c.at("repeatability_sd").number_in(-kLargestNumber, kLargestNumber);
    component.repeatability_low =
        c.at("repeatability_low").number_in(-kLargestNumber, kLargestNumber);
    component.repeatability_high =
        c.at("repeatability_high").number_in(-kLargestNumber, kLargestNumber);
    component.has_spread = c.has("spread_sd");
    if (component.has_spread) {
      component.distinguishable = c.at("distinguishable").flag();
      component.spread_sd = c.at("spread_sd").number_in(-kLargestNumber, kLargestNumber);
      component.spread_sd_high = c.at("spread_sd_high").number_in(-kLargestNumber, kLargestNumber);
      component.share = c.at("share_of_variance").number_in(-kLargestNumber, kLargestNumber);
      component.distinct_categories = c.at("distinct_categories").integer();
    }
    gauge.components.push_back(component);
  }
  if (gauge.components.size() != 3) {
    throw place.at("components").problem(findings::not_three_components());
  }
  return gauge;
}

OtherTurn other_turn_at(const JsonPlace& place) {
  return {turn_at(place), place.at("sheets").integer(), three_at(place.at("mean")),
          three_at(place.at("half_width_95")), three_at(place.at("spread_sd"))};
}

FedRoundCheck fed_round_at(const JsonPlace& place) {
  const auto number = [&](const char* key) {
    return place.at(key).number_in(-kLargestNumber, kLargestNumber);
  };
  return {place.at("sheets_upright").integer(),
          place.at("sheets_round").integer(),
          {number("bias_x_mm"), number("bias_y_mm")},
          {number("half_width_95_x_mm"), number("half_width_95_y_mm")},
          number("p_value"),
          place.at("real").flag()};
}

}  // namespace

Studies studies_at(const JsonPlace& document) {
  Studies studies;
  if (document.has("gauge")) studies.gauge = gauge_at(document.at("gauge"));
  if (document.has("other_turn")) studies.other_turn = other_turn_at(document.at("other_turn"));
  if (document.has("fed_round")) studies.fed_round = fed_round_at(document.at("fed_round"));
  return studies;
}

Json json_of(const Studies& studies) {
  Json json = Json::object();
  if (studies.gauge) json["gauge"] = json_of(*studies.gauge);
  if (studies.other_turn) json["other_turn"] = json_of(*studies.other_turn);
  if (studies.fed_round) json["fed_round"] = json_of(*studies.fed_round);
  return json;
}

}  // namespace versolay
