#include "app/readings.h"

#include "core/files.h"
#include "core/registration_json.h"
#include "registration/eye_registration.h"
#include "registration/readings_json.h"
#include "target/geometry.h"
#include "words/eye_table_notes.h"
#include "words/say.h"
#include "words/translation.h"

namespace versolay {
namespace {

constexpr int kMostSheetsOfATable = 200;

Refusal nothing_read(const std::vector<RejectedInput>& rejected) {
  std::string message = tr("No sheet can be read from this table.");
  if (rejected.empty()) message += tr(" It is not filled in.");
  for (const RejectedInput& r : rejected)
    message +=
        "\n  " + (r.sheet ? tr("Sheet {}: {}", *r.sheet, words::say(r.why)) : words::say(r.why));
  return {"no_sheets", message};
}

}  // namespace

void make_eye_template(const EyeTemplateRequest& request) {
  if (request.sheets < 1 || request.sheets > kMostSheetsOfATable) {
    throw Error("--sheets " + std::to_string(request.sheets),
                tr("must be from 1 to {}", kMostSheetsOfATable));
  }
  write_file_atomically(
      request.out,
      eye_table_template(request.method, request.paper, request.turn, request.sheets,
                         request.separator, words::eye_table_notes(request.method)),
      request.replace);
}

Result<EyeReadings> read_by_eye(const EyeReadingsRequest& request) {
  check_output(request.out, request.replace);
  const std::string file = request.table.string();
  EyeTable table = read_eye_table(read_file(request.table), file, request.given);
  EyeReadings result{register_by_eye(table, file), std::move(table.notices)};
  if (result.readings.sheets.empty()) return nothing_read(result.readings.rejected);
  write_file_atomically(request.out, to_text(json_of(result.readings)), request.replace);
  return result;
}

EyeTarget target_of_geometry(const std::filesystem::path& geometry) {
  const Json document = read_json(geometry);
  const JsonPlace root(document, geometry.string());
  require_schema(root, "target_geometry", 1);
  const Paper paper = paper_at(root);
  const Turn turn = turn_at(root);
  const Json ours = geometry_json(target_geometry(paper, turn));
  for (const std::string_view key : {"holes", "verniers"}) {
    if (root.at(key).raw() != ours.at(std::string(key))) {
      throw root.at(key).problem({"other_target_geometry",
                                  tr("are not where this version puts them; print a new target")});
    }
  }
  return {paper, turn};
}

}  // namespace versolay
