#include <fmt/format.h>

#include "cli/bad_option.h"
#include "cli/command.h"
#include "cli/folder_job.h"
#include "cli/job_defaults.h"
#include "cli/next_step.h"
#include "cli/option_values.h"
#include "profile/profile_json.h"
#include "registration/readings_json.h"
#include "words/findings.h"
#include "words/translation.h"

namespace versolay::cli {
namespace {

struct JobCommandOptions {
  std::map<std::string, std::string> values;  // key -> what was typed
  std::vector<std::string> forget;
};

FolderJob changed(FolderJob job, const JobCommandOptions& options, CLI::App& root) {
  for (const auto& [key, value] : options.values) {
    if (value.empty()) continue;
    require_value_of_job(root, key, value);
    job.remembered[key] = value;
  }
  for (const std::string& key : options.forget) {
    if (job.remembered.erase(key) == 0)
      throw BadOption("--forget", key, findings::not_remembered());
  }
  return job;
}

std::string words_of(const FolderJob& job) {
  if (job.remembered.empty()) return tr("This folder's job remembers nothing yet.");
  std::string text = tr("This folder's job remembers:");
  for (const std::string_view key : kJobKeys) {
    if (const auto value = job.find(std::string(key))) {
      text += fmt::format("\n  {:<10}  {}", key, *value);
    }
  }
  return tr("{}\nCommands run in this folder use these unless an option says otherwise.", text);
}

/// A file that is remembered may be made later; one that is there must be what it is called.
void run_check(const JobCommandOptions& options) {
  const auto file_of = [&](const char* key) -> std::optional<std::string> {
    const auto typed = options.values.find(key);
    std::error_code told_when_used;
    if (typed == options.values.end() || typed->second.empty() ||
        std::filesystem::status(typed->second, told_when_used).type() ==
            std::filesystem::file_type::not_found) {
      return std::nullopt;
    }
    return typed->second;
  };
  if (const auto profile = file_of("profile")) read_profile(*profile);
  if (const auto readings = file_of("readings")) read_readings(*readings);
}

Result<Outcome> run(const JobCommandOptions& options, CLI::App& root) {
  run_check(options);
  const std::filesystem::path folder = ".";
  const std::optional<FolderJob> before = read_job(folder);
  const FolderJob job = changed(before.value_or(FolderJob{}), options, root);
  const bool changes = !before || job.remembered != before->remembered;
  if (!before && job.remembered.empty()) {
    return findings::no_job();
  }
  if (changes) write_job(folder, job);
  Outcome outcome;
  outcome.text = words_of(job);
  outcome.document = {{"file", kJobFile}, {"remembered", job.remembered}};
  outcome.next = next_step(folder, job);
  return outcome;
}

}  // namespace

Command add_job(CLI::App& root) {
  auto options = make_options<JobCommandOptions>();
  CLI::App* parser = root.add_subcommand(
      "job", tr("Remember paper, turn, profile and the like for the commands run in this folder"));
  for (const std::string_view known : kJobKeys) {
    const std::string key(known);
    const CLI::Option* option = option_of_job(root, key);  // of the commands that were added before
    add_typed(*parser, "--" + key, options->values[key], words(option->get_type_name()),
              option->get_description());
  }
  add_several(*parser, "--forget", options->forget, words("NAME"),
              tr("a name to forget, as in paper"));
  parser->footer(
      tr("Example: versolay job --paper a4 --turn long-edge --card 63x88\n"
         "Without options it lists what is remembered."));
  return {parser, [options, &root](const CommonOptions&) { return run(*options, root); }};
}

}  // namespace versolay::cli
