#include "registration/fronts_json.h"

#include "core/print_lay_json.h"
#include "core/registration_json.h"
#include "core/software.h"
#include "registration/findings.h"
#include "registration/rejected_json.h"

namespace versolay {
namespace {

Json json_of_one(const FrontReading& f) {
  Json json = {{"sheet", f.sheet},
               {"run", f.run},
               {"lay", json_of(f.lay)},
               {"files", f.files},
               {"warnings", json_of(f.warnings)}};
  add_printed_scale(f.printed_scale, json);
  if (f.correction) json["correction_of_job"] = json_of(*f.correction);
  return json;
}

FrontReading front_at(const JsonPlace& place) {
  FrontReading front;
  front.sheet = place.at("sheet").integer();
  if (front.sheet < 1) throw place.at("sheet").problem(findings::not_a_sheet_number());
  front.run = place.at("run").text();
  front.lay = print_lay_at(place.at("lay"));
  front.printed_scale = printed_scale_at(place);
  if (place.has("correction_of_job")) {
    front.correction = registration_at(place.at("correction_of_job"));
  }
  if (place.has("files")) {
    for (const JsonPlace& f : place.at("files").items()) front.files.push_back(f.text());
  }
  if (place.has("warnings")) front.warnings = notices_at(place.at("warnings"));
  return front;
}

}  // namespace

Json json_of(const Fronts& fronts) {
  Json list = Json::array();
  for (const FrontReading& f : fronts.fronts) list.push_back(json_of_one(f));
  return {{"schema", "versolay.fronts/" + std::to_string(kFrontsVersion)},
          {"turn", to_string(fronts.turn)},
          {"paper_mm", json_of(fronts.paper)},
          {"created", fronts.created},
          {"software", kSoftware},
          {"fronts", std::move(list)},
          {"rejected", json_of(fronts.rejected)}};
}

Fronts fronts_from(const Json& document, const std::string& file) {
  const JsonPlace root(document, file);
  require_schema(root, "fronts", kFrontsVersion);
  Fronts fronts;
  fronts.turn = turn_at(root);
  fronts.paper = paper_at(root);
  fronts.created = root.text_or("created", "");
  for (const JsonPlace& f : root.at("fronts").items()) fronts.fronts.push_back(front_at(f));
  fronts.rejected = rejected_at(root);
  return fronts;
}

Fronts read_fronts(const std::filesystem::path& path) {
  return fronts_from(read_json(path), path.string());
}

}  // namespace versolay
