#include "cli/folder_job.h"

#include <algorithm>

#include "core/files.h"
#include "core/findings.h"
#include "core/json.h"
#include "words/findings.h"

namespace versolay {

bool is_job_key(std::string_view key) {
  return std::find(kJobKeys.begin(), kJobKeys.end(), key) != kJobKeys.end();
}

std::optional<std::string> FolderJob::find(const std::string& key) const {
  const auto found = remembered.find(key);
  return found == remembered.end() ? std::nullopt : std::optional(found->second);
}

std::optional<FolderJob> read_job(const std::filesystem::path& folder) {
  const std::filesystem::path file = folder / kJobFile;
  if (!std::filesystem::exists(file)) return std::nullopt;
  const Json json = read_json(file);
  const JsonPlace document(json, file.string());
  require_schema(document, "job", 1);
  const JsonPlace remembered = document.at("remembered");
  if (!remembered.raw().is_object()) throw remembered.problem(findings::not_an_object());
  FolderJob job;
  for (const auto& [key, value] : remembered.raw().items()) {
    if (!is_job_key(key)) throw remembered.at(key).problem(findings::no_job_setting());
    job.remembered[key] = remembered.at(key).text();
  }
  return job;
}

void write_job(const std::filesystem::path& folder, const FolderJob& job) {
  Json remembered = Json::object();
  for (const std::string_view known : kJobKeys) {  // in the order of the work
    const std::string key(known);
    if (const auto value = job.find(key)) remembered[key] = *value;
  }
  const Json document = {{"schema", "versolay.job/1"}, {"remembered", remembered}};
  write_file_atomically(folder / kJobFile, to_text(document), true);
}

}  // namespace versolay
