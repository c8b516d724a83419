#include "profile/left_out.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/translation.h"
#include "profile/misfeeds.h"

namespace versolay {
namespace {

constexpr char kDoubtPrefix[] = "in doubt: ";

}  // namespace

std::optional<Refusal> leave_out(PrinterProfile& profile, const std::vector<LeaveOut>& list) {
  for (const LeaveOut& wanted : list) {
    std::vector<ProfileFeed*> hits;
    for (ProfileFeed& f : profile.feeds) {
      const std::string& source = profile.sessions[static_cast<std::size_t>(f.session)].source;
      if (f.sheet == wanted.sheet && (wanted.source.empty() || wanted.source == source)) {
        hits.push_back(&f);
      }
    }
    if (hits.empty()) {
      return Refusal{"no_such_sheet",
                     tr("There is no sheet {}{} to exclude. Look at the numbers under \"sheets\" "
                        "in the readings",
                        wanted.sheet, wanted.source.empty() ? "" : tr(" in {}", wanted.source))};
    }
    if (hits.size() > 1) {
      return Refusal{"ambiguous_sheet",
                     tr("Sheet {} stands in {} readings files. Say which one: --exclude FILE:{}",
                        wanted.sheet, hits.size(), wanted.sheet)};
    }
    hits.front()->left_out = wanted.why;
  }
  return std::nullopt;
}

void judge_doubtful(PrinterProfile& profile, bool keep) {
  constexpr std::ptrdiff_t kFewestSound = 3;
  const auto sound =
      std::count_if(profile.feeds.begin(), profile.feeds.end(),
                    [](const ProfileFeed& f) { return f.left_out.empty() && f.doubts.empty(); });
  for (ProfileFeed& feed : profile.feeds) {
    if (feed.doubts.empty() || !feed.left_out.empty()) continue;
    const std::string& source = profile.sessions[static_cast<std::size_t>(feed.session)].source;
    const std::string why = fmt::format("{}", fmt::join(feed.doubts, ", "));
    if (keep || sound < kFewestSound) {
      profile.warnings.push_back(
          {"doubtful_kept",
           tr("The reading of sheet {} of {} is in doubt ({}), and it counts{}. Scan the sheet "
              "again, or leave it out with --exclude {} --why REASON",
              feed.sheet, source, why, keep ? "" : tr(": too few others remain to do without it"),
              feed.sheet)});
      continue;
    }
    feed.left_out = kDoubtPrefix + why;
    profile.warnings.push_back(
        {"doubtful_left_out",
         tr("Sheet {} of {} was left out because its reading is in doubt ({}). Scan it again, or "
            "keep it with --keep-doubtful",
            feed.sheet, source, why)});
  }
}

std::optional<Notice> doubtful_sheets(const PrinterProfile& profile) {
  std::string kept;
  std::string left_out;
  for (const ProfileFeed& feed : profile.feeds) {
    if (feed.doubts.empty()) continue;
    std::string& list = feed.left_out.empty() ? kept : left_out;
    list += (list.empty() ? "" : ", ") + std::to_string(feed.sheet);
  }
  if (!kept.empty()) {
    return Notice{"doubtful_sheets",
                  tr("The profile rests on sheets whose readings are in doubt (sheet {}): what is "
                     "promised may be wrong. Scan them again and make the profile anew.",
                     kept)};
  }
  if (!left_out.empty()) {
    return Notice{"doubtful_sheets",
                  tr("Sheets whose readings are in doubt were left out of the profile (sheet {}). "
                     "Scan them again to use them.",
                     left_out)};
  }
  return std::nullopt;
}

std::set<std::size_t> judge_misfeeds(PrinterProfile& profile, bool keep) {
  std::vector<ProfileFeed> in;
  std::vector<std::size_t> index;
  for (std::size_t i = 0; i < profile.feeds.size(); ++i) {
    if (!profile.feeds[i].left_out.empty()) continue;
    in.push_back(profile.feeds[i]);
    index.push_back(i);
  }
  const double half_diagonal = std::hypot(profile.paper.width_mm, profile.paper.height_mm) / 2;
  std::set<std::size_t> left_out;
  for (const Misfeed& m : find_misfeeds(in, half_diagonal)) {
    ProfileFeed& feed = profile.feeds[index[m.feed]];
    const std::string& source = profile.sessions[static_cast<std::size_t>(feed.session)].source;
    if (m.gross && !keep) {
      feed.left_out = kMisfeedPrefix + m.why;
      left_out.insert(index[m.feed]);
      profile.warnings.push_back(
          {"misfeed_left_out", tr("Sheet {} of {} was left out as a misfeed: {}. Keep it with "
                                  "--keep if such sheets belong to your printer's normal work",
                                  feed.sheet, source, m.why)});
    } else {
      profile.warnings.push_back({m.gross ? "misfeed_kept" : "sheet_stands_out",
                                  tr("Sheet {} of {} stands out: {}. It counts; leave it out with "
                                     "--exclude {} --why REASON if you know what went wrong",
                                     feed.sheet, source, m.why, feed.sheet)});
    }
  }
  return left_out;
}

void list_left_out(PrinterProfile& profile) {
  for (const ProfileFeed& f : profile.feeds) {
    ProfileSession& session = profile.sessions[static_cast<std::size_t>(f.session)];
    if (f.left_out.empty()) {
      ++session.n_feeds;
    } else {
      profile.excluded.push_back({session.source, f.sheet, f.left_out});
    }
  }
}

}  // namespace versolay
