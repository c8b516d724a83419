#include "app/readings.h"

#include "core/field_range.h"
#include "core/files.h"
#include "core/registration_json.h"
#include "registration/eye_registration.h"
#include "registration/readings_json.h"
#include "target/geometry.h"
#include "words/eye_table_notes.h"
#include "words/findings.h"
#include "words/rejected.h"

namespace versolay {
namespace {

constexpr int kMostSheetsOfATable = 200;

Refusal nothing_read(const std::string& table, const std::vector<RejectedInput>& rejected) {
  if (rejected.empty()) return findings::table_not_filled_in(table);
  return findings::no_sheet_in_table(table, words::findings_of(rejected));
}

}  // namespace

void make_eye_template(const EyeTemplateRequest& request) {
  require_in("sheets", request.sheets, 1, kMostSheetsOfATable);
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
  if (result.readings.sheets.empty()) return nothing_read(file, result.readings.rejected);
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
      throw root.at(key).problem(findings::other_target_geometry());
    }
  }
  return {paper, turn};
}

}  // namespace versolay
