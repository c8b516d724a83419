#include "core/studies_json.h"

#include "versolay/registration.h"

namespace versolay {
namespace {

constexpr int kDecimals = 6;

Json three(const Eigen::Vector3d& v) {
  Json json;
  for (std::size_t i = 0; i < 3; ++i) {
    json[std::string(kRegistrationKeys[i])] = rounded(v[static_cast<Eigen::Index>(i)], kDecimals);
  }
  return json;
}

Json json_of(const GaugeReport& gauge) {
  Json components = Json::array();
  for (const GaugeComponent& c : gauge.components) {
    Json json = {{"component", c.component},
                 {"repeatability_sd", rounded(c.repeatability_sd, kDecimals)},
                 {"repeatability_low", rounded(c.repeatability_low, kDecimals)},
                 {"repeatability_high", rounded(c.repeatability_high, kDecimals)}};
    if (c.has_spread) {
      json["distinguishable"] = c.distinguishable;
      json["spread_sd"] = rounded(c.spread_sd, kDecimals);
      json["spread_sd_high"] = rounded(c.spread_sd_high, kDecimals);
      json["share_of_variance"] = rounded(c.share, kDecimals);
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
          {"bias_x_mm", rounded(check.bias_mm.x(), kDecimals)},
          {"bias_y_mm", rounded(check.bias_mm.y(), kDecimals)},
          {"half_width_95_x_mm", rounded(check.half_width_mm.x(), kDecimals)},
          {"half_width_95_y_mm", rounded(check.half_width_mm.y(), kDecimals)},
          {"p_value", rounded(check.p_value, kDecimals)},
          {"real", check.real}};
}

}  // namespace

Json json_of(const Studies& studies) {
  Json json = Json::object();
  if (studies.gauge) json["gauge"] = json_of(*studies.gauge);
  if (studies.other_turn) json["other_turn"] = json_of(*studies.other_turn);
  if (studies.fed_round) json["fed_round"] = json_of(*studies.fed_round);
  return json;
}

}  // namespace versolay
