#include "registration/readings_json.h"

#include "core/doubt.h"
#include "core/findings.h"
#include "core/print_lay_json.h"
#include "core/registration_json.h"
#include "core/software.h"
#include "core/studies_json.h"
#include "registration/findings.h"
#include "registration/rejected_json.h"
#include "registration/sheet_studies.h"

namespace versolay {
namespace {

Json json_of(const FeatureReading& f) {
  Json json = {{"id", f.id},
               {"x_mm", rounded(f.at.x, 4)},
               {"y_mm", rounded(f.at.y, 4)},
               {"ex_mm", rounded(f.e_mm.x(), 6)},
               {"ey_mm", rounded(f.e_mm.y(), 6)},
               {"sd_mm", rounded(f.sd_mm, 6)},
               {"residual_x_mm", rounded(f.residual_mm.x(), 6)},
               {"residual_y_mm", rounded(f.residual_mm.y(), 6)}};
  if (f.normal) json["normal"] = {rounded(f.normal->x(), 6), rounded(f.normal->y(), 6)};
  return json;
}

Json json_of(const PassLay& pass) {
  return {{"pass", pass.pass},
          {"lay", versolay::json_of(pass.lay)},
          {"covariance", json_matrix(pass.covariance)}};
}

Json json_of(const PrintedScale& scale, const std::optional<PrintLay>& lay,
             const std::vector<PassLay>& passes) {
  Json json = Json::object();
  add_printed_scale(scale, json);
  if (lay) json["lay"] = versolay::json_of(*lay);
  if (!passes.empty()) json["passes"] = Json::array();
  for (const PassLay& pass : passes) json["passes"].push_back(json_of(pass));
  return json;
}

Json json_of(const SheetReading& s) {
  Json features = Json::array();
  for (const FeatureReading& f : s.features) features.push_back(json_of(f));
  Json json = {{"sheet", s.sheet},
               {"run", s.run},
               {"registration", versolay::json_of(s.registration)},
               {"covariance", json_matrix(s.covariance)},
               {"model", to_string(s.model)},
               {"datum", to_string(s.datum)},
               {"datum_notes", versolay::json_of(s.datum_notes)},
               {"residual_rms_mm", rounded(s.residual_rms_mm, 6)},
               {"features", std::move(features)},
               {"recto", json_of(s.recto, s.recto_lay, s.recto_passes)},
               {"verso", json_of(s.verso, s.verso_lay, s.verso_passes)},
               {"files", s.files},
               {"warnings", versolay::json_of(s.warnings)}};
  if (!s.repeats.empty()) {
    json["repeats"] = Json::array();
    for (const Registration& r : s.repeats) json["repeats"].push_back(versolay::json_of(r));
  }
  if (s.fed_round) json["fed_round"] = true;
  if (s.photographed) json["photographed"] = true;
  const std::vector<std::string> doubts = doubts_in(s.warnings);
  if (!doubts.empty()) json["doubts"] = doubts;
  json["kind"] = s.correction ? "production" : "target";
  if (s.correction) json["correction_applied"] = versolay::json_of(*s.correction);
  if (s.lean) {
    json["prick_lean"] = {{"x_mm", rounded(s.lean->lean_mm.x(), 6)},
                          {"y_mm", rounded(s.lean->lean_mm.y(), 6)},
                          {"sd_mm", rounded(s.lean->sd_mm, 6)}};
  }
  return json;
}

FeatureReading feature_at(const JsonPlace& place) {
  FeatureReading f;
  f.id = place.at("id").text();
  const auto mm = [&place](const char* key, double most) {
    return place.at(key).number_in(-most, most);
  };
  f.at = {mm("x_mm", 1000), mm("y_mm", 1000)};
  f.e_mm = {mm("ex_mm", 100), mm("ey_mm", 100)};
  if (place.has("sd_mm")) f.sd_mm = place.at("sd_mm").number_in(0.0, 100.0);
  f.residual_mm = {place.number_or("residual_x_mm", 0.0), place.number_or("residual_y_mm", 0.0)};
  if (place.has("normal")) {
    const auto normal = place.at("normal").items();
    if (normal.size() != 2) throw place.at("normal").problem(findings::not_two_numbers());
    f.normal = Eigen::Vector2d(normal[0].number_in(-1, 1), normal[1].number_in(-1, 1));
  }
  return f;
}

std::optional<PrintLay> lay_at(const JsonPlace& sheet, std::string_view side) {
  if (!sheet.has(side) || !sheet.at(side).has("lay")) return std::nullopt;
  return print_lay_at(sheet.at(side).at("lay"));
}

std::vector<PassLay> passes_at(const JsonPlace& sheet, std::string_view side) {
  std::vector<PassLay> passes;
  if (!sheet.has(side) || !sheet.at(side).has("passes")) return passes;
  for (const JsonPlace& place : sheet.at(side).at("passes").items()) {
    PassLay pass{place.at("pass").integer(), registration_at(place.at("lay"))};
    if (pass.pass < 2 || pass.pass > 99 || (!passes.empty() && pass.pass <= passes.back().pass)) {
      throw place.at("pass").problem(findings::not_a_pass());
    }
    if (place.has("covariance")) pass.covariance = covariance_at(place.at("covariance"));
    passes.push_back(pass);
  }
  return passes;
}

std::optional<PrickLean> lean_at(const JsonPlace& sheet) {
  if (!sheet.has("prick_lean")) return std::nullopt;
  const JsonPlace place = sheet.at("prick_lean");
  return PrickLean{{place.at("x_mm").number_in(-100, 100), place.at("y_mm").number_in(-100, 100)},
                   place.at("sd_mm").number_in(0.0, 100.0)};
}

PrintedScale printed_scale_at(const JsonPlace& sheet, std::string_view side) {
  if (!sheet.has(side)) return {};
  return versolay::printed_scale_at(sheet.at(side));
}

RegistrationModel model_at(const JsonPlace& sheet, const Registration& r) {
  if (sheet.has("model")) {
    const auto model = registration_model_from(sheet.at("model").text());
    if (!model) throw sheet.at("model").problem(findings::not_a_model());
    return *model;
  }
  if (r.shear_mrad != 0 || r.scale_x_ppm != r.scale_y_ppm) return RegistrationModel::affine;
  return r.scale_x_ppm != 0 ? RegistrationModel::similarity : RegistrationModel::rigid;
}

std::optional<Registration> correction_at(const JsonPlace& sheet) {
  const std::string kind = sheet.text_or("kind", "target");
  if (kind != "target" && kind != "production") {
    throw sheet.at("kind").problem(findings::not_a_sheet_kind());
  }
  const bool production = kind == "production";
  if (production != sheet.has("correction_applied")) {
    throw sheet.problem(production ? findings::correction_missing()
                                   : findings::correction_unexpected());
  }
  if (!production) return std::nullopt;
  return registration_at(sheet.at("correction_applied"));
}

/// Version 1 had one sentence.
Notices datum_notes_at(const JsonPlace& sheet) {
  if (sheet.has("datum_notes")) return notices_at(sheet.at("datum_notes"));
  const std::string reason = sheet.text_or("datum_reason", "");
  return reason.empty() ? Notices{} : Notices{sentence_of_version_1("datum_reason", reason)};
}

SheetReading sheet_at(const JsonPlace& place) {
  SheetReading s;
  s.sheet = place.at("sheet").integer();
  if (s.sheet < 1) throw place.at("sheet").problem(findings::not_a_sheet_number());
  s.run = place.text_or("run", "");
  s.correction = correction_at(place);
  s.registration = registration_at(place.at("registration"));
  if (place.has("covariance")) s.covariance = covariance_at(place.at("covariance"));
  s.model = model_at(place, s.registration);
  s.datum = datums_from(place.text_or("datum", ""));
  s.datum_notes = datum_notes_at(place);
  if (place.has("residual_rms_mm")) {
    s.residual_rms_mm = place.at("residual_rms_mm").number_in(0.0, 100.0);
  }
  if (place.has("features")) {
    for (const JsonPlace& f : place.at("features").items()) s.features.push_back(feature_at(f));
  }
  s.recto = printed_scale_at(place, "recto");
  s.verso = printed_scale_at(place, "verso");
  s.recto_lay = lay_at(place, "recto");
  s.verso_lay = lay_at(place, "verso");
  s.recto_passes = passes_at(place, "recto");
  s.verso_passes = passes_at(place, "verso");
  s.lean = lean_at(place);
  if (place.has("repeats")) {
    for (const JsonPlace& r : place.at("repeats").items()) s.repeats.push_back(registration_at(r));
  }
  if (place.has("fed_round")) s.fed_round = place.at("fed_round").flag();
  if (place.has("photographed")) s.photographed = place.at("photographed").flag();
  if (place.has("files")) {
    for (const JsonPlace& f : place.at("files").items()) s.files.push_back(f.text());
  }
  if (place.has("warnings")) s.warnings = notices_at(place.at("warnings"));
  return s;
}

}  // namespace

Json json_of(const Readings& readings) {
  Json sheets = Json::array();
  for (const SheetReading& s : readings.sheets) sheets.push_back(json_of(s));
  Json json = {{"schema", "versolay.readings/" + std::to_string(kReadingsVersion)},
               {"turn", to_string(readings.turn)},
               {"paper_mm", json_of(readings.paper)},
               {"created", readings.created},
               {"software", kSoftware},
               {"sheets", std::move(sheets)},
               {"rejected", json_of(readings.rejected)}};
  json.update(json_of(studies_of(readings.sheets, readings.turn, readings.paper)));
  return json;
}

Readings readings_from(const Json& document, const std::string& file) {
  const JsonPlace root(document, file);
  require_schema(root, "readings", kReadingsVersion);
  Readings readings;
  readings.turn = turn_at(root);
  readings.paper = paper_at(root);
  readings.created = root.text_or("created", "");
  for (const JsonPlace& s : root.at("sheets").items()) readings.sheets.push_back(sheet_at(s));
  readings.rejected = rejected_at(root);
  return readings;
}

Readings read_readings(const std::filesystem::path& path) {
  return readings_from(read_json(path), path.string());
}

}  // namespace versolay
