#include "profile/left_out.h"

#include <algorithm>
#include <cmath>

#include "profile/findings.h"
#include "profile/misfeeds.h"

namespace versolay {
namespace {

bool is_in(const ProfileFeed& feed) { return !feed.left_out; }

/// All its passes.
void leave_out_sheet(PrinterProfile& profile, const ProfileFeed& of_sheet, const Finding& why) {
  const int session = of_sheet.session;
  const int sheet = of_sheet.sheet;
  const std::string run = of_sheet.run;
  for (ProfileFeed& f : profile.feeds) {
    if (f.session == session && f.sheet == sheet && f.run == run) f.left_out = why;
  }
}

}  // namespace

std::optional<Refusal> leave_out(PrinterProfile& profile, const std::vector<LeaveOut>& list) {
  for (const LeaveOut& wanted : list) {
    std::vector<ProfileFeed*> hits;
    for (ProfileFeed& f : profile.feeds) {
      const std::string& source = profile.sessions[static_cast<std::size_t>(f.session)].source;
      if (f.pass == 1 && f.sheet == wanted.sheet &&
          (wanted.source.empty() || wanted.source == source)) {
        hits.push_back(&f);
      }
    }
    if (hits.empty()) {
      return wanted.source.empty() ? findings::no_such_sheet(wanted.sheet)
                                   : findings::no_such_sheet_in_file(wanted.sheet, wanted.source);
    }
    if (hits.size() > 1) {
      return findings::ambiguous_sheet(wanted.sheet, static_cast<std::int64_t>(hits.size()));
    }
    leave_out_sheet(profile, *hits.front(), findings::left_out_by_user(wanted.why));
  }
  return std::nullopt;
}

void judge_doubtful(PrinterProfile& profile, bool keep) {
  constexpr std::ptrdiff_t kFewestSound = 3;
  const auto sound = std::count_if(
      profile.feeds.begin(), profile.feeds.end(),
      [](const ProfileFeed& f) { return f.pass == 1 && is_in(f) && f.doubts.empty(); });
  for (ProfileFeed& feed : profile.feeds) {
    if (feed.doubts.empty() || !is_in(feed) || feed.pass > 1) continue;
    const std::string& source = profile.sessions[static_cast<std::size_t>(feed.session)].source;
    if (keep || sound < kFewestSound) {
      profile.warnings.push_back(
          keep ? findings::doubtful_kept(feed.sheet, source, feed.doubts)
               : findings::doubtful_but_needed(feed.sheet, source, feed.doubts, sound));
      continue;
    }
    leave_out_sheet(profile, feed, findings::left_out_in_doubt(feed.doubts));
    profile.warnings.push_back(findings::doubtful_left_out(feed.sheet, source, feed.doubts));
  }
}

std::optional<Notice> doubtful_sheets(const PrinterProfile& profile) {
  std::vector<std::string> kept;
  std::vector<std::string> left_out;
  for (const ProfileFeed& feed : profile.feeds) {
    if (feed.doubts.empty() || feed.pass > 1) continue;
    (is_in(feed) ? kept : left_out).push_back(std::to_string(feed.sheet));
  }
  if (!kept.empty()) return findings::doubtful_sheets_count(kept);
  if (!left_out.empty()) return findings::doubtful_sheets_out(left_out);
  return std::nullopt;
}

namespace {

Notice remark_on(const Misfeed& m, bool out, int sheet, const std::string& source) {
  if (m.component < 2) {
    const auto& kind = out       ? findings::misfeed_left_out
                       : m.gross ? findings::misfeed_kept
                                 : findings::sheet_stands_out;
    return kind(sheet, source, m.off(), m.way());
  }
  const auto& kind = out       ? findings::misturn_left_out
                     : m.gross ? findings::misturn_kept
                               : findings::sheet_turned_out;
  return kind(sheet, source, m.turn(), m.way(), m.at_corners());
}

}  // namespace

std::set<std::size_t> judge_misfeeds(PrinterProfile& profile, bool keep) {
  std::vector<ProfileFeed> in;
  std::vector<std::size_t> index;
  for (std::size_t i = 0; i < profile.feeds.size(); ++i) {
    if (!is_in(profile.feeds[i])) continue;
    in.push_back(profile.feeds[i]);
    index.push_back(i);
  }
  const double half_diagonal = std::hypot(profile.paper.width_mm, profile.paper.height_mm) / 2;
  std::set<std::size_t> left_out;
  for (const Misfeed& m : find_misfeeds(in, half_diagonal)) {
    ProfileFeed& feed = profile.feeds[index[m.feed]];
    const std::string& source = profile.sessions[static_cast<std::size_t>(feed.session)].source;
    const bool out = m.gross && !keep;
    if (out) {
      feed.left_out = m.why();
      left_out.insert(index[m.feed]);
    }
    profile.warnings.push_back(remark_on(m, out, feed.sheet, source));
  }
  return left_out;
}

void list_left_out(PrinterProfile& profile) {
  for (const ProfileFeed& f : profile.feeds) {
    ProfileSession& session = profile.sessions[static_cast<std::size_t>(f.session)];
    if (is_in(f)) {
      ++session.n_feeds;
    } else {
      const bool is_said = f.pass > 1 && !profile.excluded.empty() &&
                           profile.excluded.back().sheet == f.sheet &&
                           profile.excluded.back().why == *f.left_out;
      if (!is_said) profile.excluded.push_back({session.source, f.sheet, *f.left_out});
    }
  }
}

}  // namespace versolay
