#include "profile/fitted.h"

#include <algorithm>

#include "profile/estimate.h"
#include "profile/findings.h"
#include "profile/pass_components.h"

namespace versolay {
namespace {

constexpr int kFewestSheets = 4;  // as for any oversize

Registration rigid(const PrintLay& lay) { return {lay.dx_mm, lay.dy_mm, lay.rotation_mrad}; }

/// Feeds that count, of sheets whose front was read.
bool is_of_use(const ProfileFeed& feed) { return !feed.left_out && feed.recto_lay.has_value(); }

RegistrationVector mean_front(const PrinterProfile& profile) {
  RegistrationVector sum = RegistrationVector::Zero();
  int feeds = 0;
  for (const ProfileFeed& feed : profile.feeds) {
    if (!is_of_use(feed)) continue;
    sum += rigid(*feed.recto_lay).vec() + feed.recto_pass_lay.vec();
    ++feeds;
  }
  return sum / std::max(feeds, 1);
}

/// The feeds as they would be, had each back been fitted to its front. Of a further pass, the lay
/// of the front goes into its registration, so that nothing is left of it.
PrinterProfile as_if_fitted(const PrinterProfile& profile, const RegistrationVector& usual_front) {
  const TurnAxis axis = turn_axis(profile.turn, profile.paper);
  PrinterProfile fitted = profile;
  std::erase_if(fitted.feeds, [](const ProfileFeed& feed) { return !is_of_use(feed); });
  for (ProfileFeed& feed : fitted.feeds) {
    const RegistrationVector off =
        rigid(*feed.recto_lay).vec() + feed.recto_pass_lay.vec() - usual_front;
    feed.registration =
        Registration::from(feed.registration.vec() + seen_from_back(Registration::from(off), axis));
    feed.recto_pass_lay = {};
  }
  return fitted;
}

}  // namespace

Registration FittedBacks::expected(const PrintLay& front) const {
  const TurnAxis axis = turn_axis(profile.turn, profile.paper);
  const RegistrationVector off = rigid(front).vec() - usual_front.vec();
  return Registration::from(profile.mean.vec() - seen_from_back(Registration::from(off), axis));
}

Result<FittedBacks> fitted_backs(const PrinterProfile& profile) {
  FittedBacks fitted;
  fitted.sheets = static_cast<int>(
      std::count_if(profile.feeds.begin(), profile.feeds.end(),
                    [](const ProfileFeed& feed) { return is_of_use(feed) && feed.pass == 1; }));
  if (fitted.sheets < kFewestSheets) {
    return findings::fronts_not_read(fitted.sheets, kFewestSheets);
  }
  fitted.usual_front = Registration::from(mean_front(profile));
  const PrinterProfile as_fitted = as_if_fitted(profile, fitted.usual_front.vec());
  std::vector<ReadingSession> sessions = sessions_of(as_fitted);
  std::erase_if(sessions, [](const ReadingSession& s) { return s.readings.sheets.empty(); });
  // What was left out is gone already; what is odd about the rest is told by its scatter.
  EstimateOptions all_that_is_left;
  all_that_is_left.keep_misfeeds = true;
  all_that_is_left.keep_doubtful = true;
  Result<PrinterProfile> remaining = estimate_profile(
      std::move(sessions), {profile.printer, profile.feed, profile.stock, profile.quality},
      all_that_is_left);
  if (!remaining) return remaining.refusal();
  fitted.profile = std::move(remaining).value();
  fitted.profile.field = profile.field;  // the pages bend as before
  for (const ProfileFeed& feed : profile.feeds) {
    if (feed.left_out) fitted.profile.feeds.push_back(feed);  // what a promise excludes
  }
  return fitted;
}

}  // namespace versolay
