// What a folder remembers of its job, so that options need not be repeated: versolay-job.json.
//
//   { "schema": "versolay.job/1", "remembered": { "paper": "a4", "turn": "long-edge", ... } }
#pragma once

#include <array>
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "words/translation.h"

namespace versolay {

inline constexpr char kJobFile[] = "versolay-job.json";

/// What can be remembered. Each is an option of one command or several ("--paper"), or the name of
/// an argument that has no dashes ("readings", "profile"), and keeps the words of the user.
struct JobKey {
  std::string_view key;
  const char* value;  // what is typed behind it, for help
  const char* meaning;
};
inline constexpr std::array<JobKey, 15> kJobKeys = {{
    {"paper", "SIZE", tr_noop("paper size, as in a4")},
    {"turn", "long-edge|short-edge", tr_noop("how a sheet is turned: long-edge or short-edge")},
    {"printer", "NAME", tr_noop("name of the printer")},
    {"feed", "WORDS", tr_noop("tray and guides")},
    {"stock", "WORDS", tr_noop("the paper that the cards are printed on")},
    {"quality", "WORDS", tr_noop("quality setting of the printer")},
    {"readings", "FILE", tr_noop("readings file")},
    {"profile", "FILE", tr_noop("printer profile")},
    {"card", "WxH", tr_noop("finished card in mm, as in 63x88")},
    {"grid", "CxR", tr_noop("columns x rows of cards, as in 3x3")},
    {"gutter", "MM", tr_noop("mm between cards")},
    {"border", "MM", tr_noop("border of the card back in mm")},
    {"coverage", "SHARE", tr_noop("share of the cards without a sliver")},
    {"confidence", "SHARE", tr_noop("confidence of that promise")},
    {"units", "mm|px|in", tr_noop("unit of distances: mm, px or in")},
}};
bool is_job_key(std::string_view key);

struct Job {
  std::map<std::string, std::string> remembered;  // key -> value, as typed

  std::optional<std::string> find(const std::string& key) const;
};

/// The job of a folder; nullopt when it has none. Throws Error if the file is not a job.
std::optional<Job> read_job(const std::filesystem::path& folder);

/// Throws Error as write_file_atomically does. An existing file is replaced: it is the program's
/// own notebook.
void write_job(const std::filesystem::path& folder, const Job& job);

}  // namespace versolay
