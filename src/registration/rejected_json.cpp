#include "registration/rejected_json.h"

#include <fmt/format.h>

#include "core/finding_json.h"

namespace versolay {
namespace {

/// {"file": "a.png, b.png", "files": [...], "sheet": 3, "code", the facts}
Json json_of_one(const RejectedInput& rejected) {
  Json json = {{"file", fmt::format("{}", fmt::join(rejected.files, ", "))},
               {"files", rejected.files}};
  if (rejected.sheet) json["sheet"] = *rejected.sheet;
  json.update(json_of(rejected.why));
  return json;
}

/// Version 1 had the names in one text, and the sheet in the sentence.
RejectedInput one_at(const JsonPlace& place) {
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

Json json_of(const std::vector<RejectedInput>& rejected) {
  Json list = Json::array();
  for (const RejectedInput& r : rejected) list.push_back(json_of_one(r));
  return list;
}

std::vector<RejectedInput> rejected_at(const JsonPlace& document) {
  std::vector<RejectedInput> rejected;
  if (!document.has("rejected")) return rejected;
  for (const JsonPlace& r : document.at("rejected").items()) rejected.push_back(one_at(r));
  return rejected;
}

}  // namespace versolay
