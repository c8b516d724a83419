#include <fmt/format.h>

#include "cli/command.h"
#include "cli/option_values.h"
#include "cli/shared_options.h"
#include "core/files.h"
#include "profile/profile_json.h"
#include "profile/profile_shelf.h"
#include "words/advice_words.h"
#include "words/findings.h"
#include "words/say.h"
#include "words/shelf_words.h"
#include "words/translation.h"

namespace versolay::cli {
namespace {

struct ProfilesOptions {
  std::vector<std::filesystem::path> places = {"."};
  std::filesystem::path profile;
  std::optional<std::string> printer;
  std::optional<std::string> feed;
  std::optional<std::string> stock;
  std::optional<std::string> quality;
  std::filesystem::path out;
};

Json summary_json(const std::filesystem::path& file, const PrinterProfile& p) {
  return {{"file", file.string()},
          {"printer", p.printer},
          {"feed", p.feed},
          {"stock", p.stock},
          {"quality", p.quality},
          {"paper_mm", {p.paper.width_mm, p.paper.height_mm}},
          {"turn", to_string(p.turn)},
          {"n_feeds", p.n_feeds},
          {"created", p.created}};
}

Result<Outcome> list(const ProfilesOptions& options, const DisplayUnit& unit) {
  const ProfileShelf shelf = find_profiles(options.places);
  if (shelf.profiles.empty() && shelf.unreadable.empty()) {
    return findings::no_profiles();
  }
  Outcome outcome;
  outcome.text = shelf_words(shelf, unit);
  outcome.warnings = shelf.unreadable;
  Json profiles = Json::array();
  for (const ShelvedProfile& s : shelf.profiles) {
    profiles.push_back(summary_json(s.file, s.profile));
  }
  outcome.document = {{"profiles", profiles}};
  return outcome;
}

Outcome show(const ProfilesOptions& options, const DisplayUnit& unit) {
  const PrinterProfile profile = read_profile(options.profile);
  const std::string note = profile_note(profile, unit);
  std::string learned = profile_words(profile, unit);
  for (const ProfileEvent& event : profile.history) {
    learned += fmt::format("\n{}: {}", event.date.substr(0, 10), words::say(event.what, unit));
  }
  Outcome outcome;
  outcome.text = note + "\n\n" + learned;
  outcome.parts = {
      {"note", note}, {"backs", backs_words(profile, unit)}, {"learned", std::move(learned)}};
  outcome.document = json_of(profile);
  return outcome;
}

Outcome rename(const ProfilesOptions& o) {
  const PrinterProfile profile = rename_profile(o.profile, {o.printer, o.feed, o.stock, o.quality});
  Outcome outcome;
  outcome.text = tr("{} is now called {}.", o.profile.string(), profile.printer);
  outcome.document = summary_json(o.profile, profile);
  return outcome;
}

/// To a file where one is named, otherwise as the text of the outcome.
Outcome written(const std::string& text, const char* key, const ProfilesOptions& options,
                bool replace) {
  Outcome outcome;
  if (options.out.empty()) {
    outcome.text = text.substr(0, text.find_last_not_of("\r\n") + 1);
  } else {
    write_file_atomically(options.out, text, replace);
    outcome.text = tr("Written to {}.", options.out.string());
  }
  outcome.document = {{key, text}};
  return outcome;
}

}  // namespace

Command add_profiles(CLI::App& root) {
  auto o = make_options<ProfilesOptions>();
  CLI::App* parser =
      root.add_subcommand("profiles", tr("List, show, rename and export printer profiles"));
  parser->require_subcommand(0, 1);
  const auto action = [&](const char* name, const char* text) {
    CLI::App* sub = parser->add_subcommand(name, text);
    sub->fallthrough();  // --json and the like belong to every action
    return sub;
  };
  const auto takes_profile = [&](CLI::App* sub) {
    add_profile_argument(*sub, o->profile);
    return sub;
  };
  CLI::App* list_action =
      action("list", tr("List the profiles of this folder, or of those named (the default)"));
  add_several(*list_action, "places", o->places, file(), tr("profiles, or folders with profiles"));
  CLI::App* show_action = takes_profile(action("show", tr("Show everything in a profile")));
  CLI::App* rename_action = takes_profile(action("rename", tr("Change the names of its set-up")));
  const auto label = [&](const char* option, std::optional<std::string>& field, const char* text) {
    add_typed(*rename_action, option, field, optional(words("WORDS")), text);
  };
  label("--printer", o->printer, tr("name of the printer"));
  label("--feed", o->feed, tr("tray and guides"));
  label("--stock", o->stock, tr("the paper"));
  label("--quality", o->quality, tr("quality setting"));
  CLI::App* export_action = takes_profile(action("export", tr("Write its feeds as a CSV table")));
  CLI::App* note_action = takes_profile(
      action("note", tr("Write a dozen lines to print and pin up above the printer")));
  for (CLI::App* sub : {export_action, note_action}) {
    add_out(*sub, o->out, tr("file to write; without it, printed"));
  }
  parser->footer(tr("Example: versolay profiles note inkjet.json"));
  return {parser, [=](const CommonOptions& common) -> Result<Outcome> {
            if (show_action->parsed()) return show(*o, common.unit);
            if (rename_action->parsed()) return rename(*o);
            if (export_action->parsed()) {
              Outcome table =
                  written(profile_csv(read_profile(o->profile)), "csv", *o, common.force);
              table.verbatim = true;
              return table;
            }
            if (note_action->parsed()) {
              return written(profile_note(read_profile(o->profile), common.unit) + "\n", "note", *o,
                             common.force);
            }
            return list(*o, common.unit);
          }};
}

}  // namespace versolay::cli
