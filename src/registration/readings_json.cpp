#include "registration/readings_json.h"

#include <fmt/format.h>

#include "core/doubt.h"
#include "core/findings.h"
#include "core/registration_json.h"
#include "core/software.h"
#include "core/studies_json.h"
#include "registration/findings.h"
#include "registration/studies.h"

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

Json json_of(const PrintedScale& scale, const std::optional<PrintLay>& lay) {
  Json json = Json::object();
  add_printed_scale(scale, json);
  if (lay) {
    json["lay"] = {{"dx_mm", rounded(lay->dx_mm, 6)},
                   {"dy_mm", rounded(lay->dy_mm, 6)},
                   {"rotation_mrad", rounded(lay->rotation_mrad, 6)},
                   {"paper_width_mm", rounded(lay->paper_width_mm, 4)},
                   {"paper_height_mm", rounded(lay->paper_height_mm, 4)},
                   {"covariance", json_matrix(lay->covariance)}};
  }
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
               {"recto", json_of(s.recto, s.recto_lay)},
               {"verso", json_of(s.verso, s.verso_lay)},
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
  const JsonPlace place = sheet.at(side).at("lay");
  PrintLay lay{place.at("dx_mm").number_in(-100, 100), place.at("dy_mm").number_in(-100, 100),
               place.at("rotation_mrad").number_in(-100, 100),
               place.at("paper_width_mm").number_in(10, 2000),
               place.at("paper_height_mm").number_in(10, 2000)};
  if (place.has("covariance")) {
    lay.covariance = matrix_from(place.at("covariance"), 3, 3);
    if ((lay.covariance.diagonal().array() < 0.0).any()) {
      throw place.at("covariance").problem(findings::variance_below_zero());
    }
  }
  return lay;
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
  return reason.empty() ? Notices{} : Notices{{"datum_reason", reason}};
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

/// {"file": "a.png, b.png", "files": [...], "sheet": 3, "code", the facts}
Json json_of(const RejectedInput& rejected) {
  Json json = {{"file", fmt::format("{}", fmt::join(rejected.files, ", "))},
               {"files", rejected.files}};
  if (rejected.sheet) json["sheet"] = *rejected.sheet;
  json.update(versolay::json_of(rejected.why));
  return json;
}

/// Version 1 had the names in one text, and the sheet in the sentence.
RejectedInput rejected_at(const JsonPlace& place) {
  RejectedInput rejected;
  rejected.why = finding_at(place, {"file", "files", "sheet"});
  if (place.has("files")) {
    for (const JsonPlace& f : place.at("files").items()) rejected.files.push_back(f.text());
  } else {
    rejected.files = {place.at("file").text()};
  }
  if (place.has("sheet")) rejected.sheet = place.at("sheet").integer();
  return rejected;
}

}  // namespace

Json json_of(const Readings& readings) {
  Json sheets = Json::array();
  for (const SheetReading& s : readings.sheets) sheets.push_back(json_of(s));
  Json rejected = Json::array();
  for (const RejectedInput& r : readings.rejected) {
    rejected.push_back(json_of(r));
  }
  Json json = {{"schema", "versolay.readings/" + std::to_string(kReadingsVersion)},
               {"turn", to_string(readings.turn)},
               {"paper_mm", json_of(readings.paper)},
               {"created", readings.created},
               {"software", kSoftware},
               {"sheets", std::move(sheets)},
               {"rejected", std::move(rejected)}};
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
  if (root.has("rejected")) {
    for (const JsonPlace& r : root.at("rejected").items()) {
      readings.rejected.push_back(rejected_at(r));
    }
  }
  return readings;
}

Readings read_readings(const std::filesystem::path& path) {
  return readings_from(read_json(path), path.string());
}

}  // namespace versolay
