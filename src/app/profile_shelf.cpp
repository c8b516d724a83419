#include "app/profile_shelf.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/csv.h"
#include "core/files.h"
#include "core/numbers.h"
#include "core/registration_json.h"
#include "core/software.h"
#include "profile/findings.h"
#include "profile/profile_json.h"
#include "words/advice_words.h"
#include "words/direction_words.h"
#include "words/say.h"
#include "words/translation.h"

namespace versolay {
namespace {

/// Whether a JSON file says of itself that it is a profile; unreadable ones do not.
bool claims_to_be_a_profile(const std::filesystem::path& file) {
  try {
    const Json document = read_json(file);
    const auto schema = document.find("schema");
    return schema != document.end() && schema->is_string() &&
           schema->get<std::string>().rfind("versolay.profile/", 0) == 0;
  } catch (const Error&) {
    return false;
  } catch (const Json::exception&) {  // an array, a number: no document of ours
    return false;
  }
}

void add_folder(const std::filesystem::path& folder, ProfileShelf& shelf) {
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.path().extension() != ".json" || !entry.is_regular_file()) continue;
    if (!claims_to_be_a_profile(entry.path())) continue;
    const auto file = folder == "." ? entry.path().filename() : entry.path();
    try {
      shelf.profiles.push_back({file, read_profile(file)});
    } catch (const Error& e) {
      shelf.unreadable.push_back({"unreadable_profile", words::say(e)});
    }
  }
}

std::string set_up_words(const PrinterProfile& p) {
  std::string text;
  for (const std::string& part : {p.feed, p.stock, p.quality}) {
    if (!part.empty()) text += (text.empty() ? "" : ", ") + part;
  }
  return text.empty() ? tr("set-up not named") : text;
}

std::string day_of(const std::string& iso_date) { return iso_date.substr(0, 10); }

double sd(const RegistrationMatrix& m, int i) { return std::sqrt(std::max(0.0, m(i, i))); }

std::string spread_words(const PrinterProfile& p, const DisplayUnit& unit) {
  if (p.spread_dof == 0) return tr("not known yet");
  return tr("{} left-right, {} up-down", distance_words(sd(p.spread_covariance, 0), unit),
            distance_words(sd(p.spread_covariance, 1), unit));
}

bool set_label(std::string& label, const std::optional<std::string>& wanted) {
  if (!wanted || *wanted == label) return false;
  label = *wanted;
  return true;
}

}  // namespace

ProfileShelf find_profiles(const std::vector<std::filesystem::path>& files_and_folders) {
  ProfileShelf shelf;
  for (const auto& path : files_and_folders) {
    if (std::filesystem::is_directory(path)) {
      add_folder(path, shelf);
    } else {
      shelf.profiles.push_back({path, read_profile(path)});
    }
  }
  std::sort(shelf.profiles.begin(), shelf.profiles.end(),
            [](const ShelvedProfile& a, const ShelvedProfile& b) { return a.file < b.file; });
  return shelf;
}

std::string shelf_words(const ProfileShelf& shelf, const DisplayUnit& unit) {
  std::string text;
  for (const ShelvedProfile& shelved : shelf.profiles) {
    const PrinterProfile& p = shelved.profile;
    text +=
        tr("{}{}: {} ({}), {} paper, {} turn, {}, {}.\n"
           "  On average the back landed {}. Spread from feed to feed: {}.",
           text.empty() ? "" : "\n", shelved.file.string(), p.printer, set_up_words(p),
           p.paper.name, to_string(p.turn), trn("{} feed", "{} feeds", p.n_feeds),
           day_of(p.created), landing_words(p.mean, unit), spread_words(p, unit));
  }
  return text;
}

std::string profile_note(const PrinterProfile& p, const DisplayUnit& unit) {
  const std::string action = p.constant_part_real
                                 ? correction_in_words(p.mean, 300, unit)
                                 : tr("left where they are (the offset may be chance)");
  return tr(
      "{}\n"
      "  {}\n"
      "  paper   {}, {} turn\n"
      "  backs   {}\n"
      "  spread  {} (one standard deviation)\n"
      "  from    {} in {}, last changed {}\n"
      "Print at actual size (100 %): fit to page, borderless and driver duplex off.\n"
      "Valid for this printer, feed, paper and quality only. Measure again when one of them "
      "changes,\n"
      "or when cards begin to show slivers.\n"
      "Never feed punched, pricked, torn or laminated sheets. The maker's manual comes first.",
      p.printer, set_up_words(p), p.paper.name, to_string(p.turn), action, spread_words(p, unit),
      trn("{} feed", "{} feeds", p.n_feeds), trn("{} session", "{} sessions", p.sessions.size()),
      day_of(p.created));
}

std::string profile_csv(const PrinterProfile& profile) {
  std::vector<std::string> head = {"session", "sheet", "run"};
  head.insert(head.end(), kRegistrationKeys.begin(), kRegistrationKeys.end());
  head.push_back("left_out");
  std::string csv = csv_line(head, ',') + "\r\n";
  for (const ProfileFeed& feed : profile.feeds) {
    const auto session = static_cast<std::size_t>(feed.session);
    std::vector<std::string> cells = {profile.sessions.at(session).source,
                                      std::to_string(feed.sheet), feed.run};
    for (const double value : feed.registration.vec()) cells.push_back(format_number(value, 6));
    cells.push_back(feed.left_out ? words::say(*feed.left_out) : "");
    csv += csv_line(cells, ',') + "\r\n";
  }
  return csv;
}

PrinterProfile rename_profile(const std::filesystem::path& file, const NewLabels& labels) {
  PrinterProfile profile = read_profile(file);
  if (labels.printer && labels.printer->empty()) throw Error("--printer", tr("must not be empty"));
  const std::string before = profile.printer + " (" + set_up_words(profile) + ")";
  bool changed = set_label(profile.printer, labels.printer);
  changed |= set_label(profile.feed, labels.feed);
  changed |= set_label(profile.stock, labels.stock);
  changed |= set_label(profile.quality, labels.quality);
  if (!changed) {
    throw Error(file.string(),
                tr("has these names already. Give --printer, --feed, --stock or --quality"));
  }
  profile.history.push_back({utc_now(), findings::renamed(before)});
  profile.software = kSoftware;
  write_file_atomically(file, to_text(json_of(profile)), true);
  return profile;
}

}  // namespace versolay
