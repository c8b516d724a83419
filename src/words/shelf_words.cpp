#include "words/shelf_words.h"

#include <algorithm>
#include <cmath>

#include "core/csv.h"
#include "core/numbers.h"
#include "core/registration_json.h"
#include "words/advice_words.h"
#include "words/direction_words.h"
#include "words/say.h"
#include "words/translation.h"

namespace versolay {
namespace {

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

}  // namespace

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

std::string backs_words(const PrinterProfile& p, const DisplayUnit& unit) {
  return p.constant_part_real ? correction_in_words(p.mean, 300, unit)
                              : tr("left where they are (the offset may be chance)");
}

std::string profile_note(const PrinterProfile& p, const DisplayUnit& unit) {
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
      p.printer, set_up_words(p), p.paper.name, to_string(p.turn), backs_words(p, unit),
      spread_words(p, unit), trn("{} feed", "{} feeds", p.n_feeds),
      trn("{} session", "{} sessions", p.sessions.size()), day_of(p.created));
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

}  // namespace versolay
