#include "app/profile_match.h"

#include <fmt/format.h>

#include <cctype>
#include <cmath>

#include "core/direction_words.h"
#include "core/numbers.h"
#include "core/translation.h"

namespace versolay {

std::optional<Refusal> profile_mismatch(const PrinterProfile& profile, const Paper& paper,
                                        Turn turn) {
  constexpr double kToleranceMm = 0.5;
  const auto words = [](const Paper& p) {
    return fmt::format("{} ({} x {} mm)", p.name, format_number(p.width_mm, 1),
                       format_number(p.height_mm, 1));
  };
  if (std::abs(profile.paper.width_mm - paper.width_mm) > kToleranceMm ||
      std::abs(profile.paper.height_mm - paper.height_mm) > kToleranceMm) {
    return Refusal{"profile_paper",
                   tr("The profile was measured on {}, this job is on {}. Use the paper of the "
                      "profile, or print and measure targets on this paper.",
                      words(profile.paper), words(paper))};
  }
  if (profile.turn != turn) {
    return Refusal{
        "profile_turn",
        tr("The profile was measured with sheets turned on the {}, this job turns them on the {}. "
           "Turn them as the profile does (--turn {}), or measure a profile for this turn.",
           profile.turn == Turn::long_edge ? tr("long edge") : tr("short edge"),
           turn == Turn::long_edge ? tr("long edge") : tr("short edge"), to_string(profile.turn))};
  }
  return std::nullopt;
}

Notices other_setup(const PrinterProfile& profile, const JobSetup& job) {
  const auto plain = [](const std::string& text) {
    std::string letters;
    for (unsigned char c : text) {
      if (std::isspace(c) == 0) letters += static_cast<char>(std::tolower(c));
    }
    return letters;
  };
  Notices notices;
  const auto compare = [&](const char* what, const std::string& measured, const std::string& now) {
    if (now.empty() || plain(now) == plain(measured)) return;
    notices.push_back(
        {std::string("profile_") + what,
         tr("The profile was measured with the {} {}, this job says \"{}\". The backs may land "
            "elsewhere: use the set-up of the profile, or measure a profile for this one.",
            tr(what), measured.empty() ? tr("not named") : "\"" + measured + "\"", now)});
  };
  compare(tr_noop("feed"), profile.feed, job.feed);
  compare(tr_noop("stock"), profile.stock, job.stock);
  compare(tr_noop("quality"), profile.quality, job.quality);
  return notices;
}

std::optional<Notice> unproven_shift(const PrinterProfile& profile) {
  if (profile.constant_part_real) return std::nullopt;
  return Notice{
      "shift_not_proven",
      tr("On average the back landed {}, which can be luck: versolay advise would leave it where "
         "it "
         "is. Here the backs are moved back by that all the same, as by any profile; the oversize "
         "from the profile is enough for either. Measure more sheets to be sure.",
         landing_words(profile.mean))};
}

}  // namespace versolay
