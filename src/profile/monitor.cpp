#include "profile/monitor.h"

#include <algorithm>
#include <cmath>

#include "core/files.h"
#include "profile/comparison.h"
#include "profile/constant_part.h"
#include "profile/findings.h"
#include "profile/misfeeds.h"
#include "profile/test_settings.h"
#include "stats/monitoring.h"

namespace versolay {
namespace {

constexpr double kLambda = 0.2;
// 5 % false alarms for all questions of a check together: has the mean moved, has the spread
// changed (larger, smaller), does a single sheet not belong, do they drift.
constexpr double kMeanLevel = 0.02;
constexpr double kLargerSpreadLevel = 0.015;
constexpr double kSmallerSpreadLevel = 0.005;
constexpr double kSingleLevel = 0.005;
constexpr double kDriftLevel = 0.005;
constexpr std::uint64_t kMonitorSeed = 20250102;
constexpr std::uint64_t kSpreadSeed = 20250106;

/// The components that vary; without a spread there is no distance.
std::vector<int> varying(const PrinterProfile& profile) {
  std::vector<int> list;
  for (int c = 0; c < kComponents; ++c) {
    if (profile.spread_covariance(c, c) > 0) list.push_back(c);
  }
  return list;
}

void chart(Check& check, const PrinterProfile& profile, const Readings& readings) {
  const std::vector<int> components = varying(profile);
  const MeanSource source = mean_source(profile);
  stats::Sample reference;
  reference.mean = profile.mean.vec()(components);
  // A single new feed varies by session and feed.
  RegistrationMatrix spread = profile.spread_covariance;
  if (sessions_are_a_sample(profile)) spread += profile.session_covariance;
  reference.n = source.n;
  reference.dof = profile.spread_dof;
  reference.scatter = spread(components, components) * reference.dof;
  const stats::Reference limits{static_cast<int>(components.size()), reference.n, reference.dof};
  check.charted = stats::monitoring_is_possible(limits) && !stats::is_singular(reference.scatter);
  Eigen::MatrixXd rows(check.n_new, components.size());
  for (int i = 0; i < check.n_new; ++i) {
    const SheetReading& sheet = readings.sheets[static_cast<std::size_t>(i)];
    rows.row(i) = sheet.registration.vec()(components).transpose();
    check.feeds.push_back({sheet.sheet, 0.0, 0.0, false});
  }
  if (!check.charted) return;
  check.t2_limit = stats::phase_two_limit(limits, kSingleLevel / check.n_new);
  check.mewma_limit = stats::mewma_limit(limits, kLambda, check.n_new, kDriftLevel, kMonitorSeed);
  const std::vector<double> drift = stats::mewma(reference, rows, kLambda);
  for (int i = 0; i < check.n_new; ++i) {
    FeedCheck& feed = check.feeds[static_cast<std::size_t>(i)];
    feed.t2 = stats::t2_of(reference, rows.row(i).transpose());
    feed.mewma = drift[static_cast<std::size_t>(i)];
    feed.out = feed.t2 > check.t2_limit;
    check.drift = check.drift || feed.mewma > check.mewma_limit;
  }
  if (check.n_new < 2) return;
  const stats::SpreadChange change = stats::spread_change(reference, rows, kSpreadSeed);
  check.spread_changed =
      change.p_larger < kLargerSpreadLevel || change.p_smaller < kSmallerSpreadLevel;
  check.spread_p_value = std::min({1.0, change.p_larger * 2, change.p_smaller * 2});
  if (!sessions_are_a_sample(profile)) {
    const Eigen::VectorXd mean = rows.colwise().mean().transpose();
    check.mean_moved =
        stats::t2_of(reference, mean) > stats::new_mean_limit(limits, check.n_new, kMeanLevel);
  }
}

EstimateOptions options_of(const PrinterProfile& profile) {
  EstimateOptions options;
  for (const ProfileFeed& f : profile.feeds) {
    // Misfeeds are judged again; doubts are carried by the sheets themselves.
    if (!f.left_out || !(*f.left_out == findings::left_out_by_user) || f.pass > 1) continue;
    const std::string* reason = f.left_out->find_text("reason");
    options.leave_out.push_back({f.sheet,
                                 profile.sessions[static_cast<std::size_t>(f.session)].source,
                                 reason == nullptr ? "" : *reason});
  }
  return options;
}

Finding event_of(const Check& check, const std::string& source) {
  switch (check.verdict) {
    case CheckVerdict::pool:
      break;
    case CheckVerdict::recentre:
      return findings::recentred(check.n_new, source);
    case CheckVerdict::start_again:
      return findings::started_again(check.n_new, source);
  }
  return findings::sheets_added(check.n_new, source);
}

}  // namespace

Readings uncorrected(const PrinterProfile& profile, Readings readings, bool by_profile) {
  for (SheetReading& s : readings.sheets) {
    if (!s.correction && by_profile) {
      s.correction = registration_from(profile.mean.page_from_wanted());
    }
    s = without_correction(std::move(s));
  }
  return readings;
}

Result<Check> check_readings(const PrinterProfile& profile, const Readings& given, bool corrected) {
  const Readings readings = uncorrected(profile, given, corrected);
  if (readings.sheets.empty()) {
    return findings::nothing_to_check(0);
  }
  if (profile.spread_dof < 1 || varying(profile).empty()) {
    return findings::spread_not_known(profile.n_feeds);
  }
  Check check;
  check.n_new = static_cast<int>(readings.sheets.size());
  chart(check, profile, readings);

  if (check.n_new >= 2) {
    const auto estimate = estimate_profile({{"new readings", readings}}, {},
                                           {.keep_misfeeds = true, .leave_out = {}});
    if (!estimate) return estimate.refusal();
    const auto comparison = compare_set_ups({"profile", profile}, {"new", estimate.value()}, false);
    if (!comparison) return comparison.refusal();
    check.spread_known = check.n_new >= kFewestForSpread;
    for (std::size_t c = 0; c < kComponents; ++c) {
      const ComponentComparison& one = comparison.value().components[c];
      check.moved[c] = one.difference;
      check.spread[c] = one.spread_ratio;
      check.spread_known = check.spread_known && one.spread_known;
    }
    if (sessions_are_a_sample(profile) || !check.charted) {
      check.mean_moved = comparison.value().differs;
    }
  }
  const bool any_out =
      std::any_of(check.feeds.begin(), check.feeds.end(), [](const auto& f) { return f.out; });
  if (check.spread_changed) {
    check.verdict = CheckVerdict::start_again;
  } else if (check.mean_moved || check.drift || any_out) {
    check.verdict = CheckVerdict::recentre;
  }
  return check;
}

namespace {

/// @param kept  the earlier sheets stay in.
Result<PrinterProfile> estimated_again(const PrinterProfile& profile, const ReadingSession& session,
                                       bool kept, bool recentre, const Finding& event) {
  const ProfileLabels labels{profile.printer, profile.feed, profile.stock, profile.quality};
  std::vector<ReadingSession> sessions;
  EstimateOptions options;
  if (kept) {
    sessions = sessions_of(profile);
    options = options_of(profile);
  }
  options.recentre = recentre;
  sessions.push_back(session);
  Result<PrinterProfile> updated = estimate_profile(std::move(sessions), labels, options);
  if (!updated) return updated;
  PrinterProfile& p = updated.value();
  // Profiles keep registrations, not holes: the old field is kept until there are holes enough.
  if (kept) {
    if (p.field.points.empty()) p.field = profile.field;
    p.studies = profile.studies;
  }
  p.history = profile.history;
  if (p.history.empty()) {
    p.history.push_back({profile.created, findings::made(profile.n_sheets)});
  }
  p.history.push_back({utc_now(), event});
  return updated;
}

}  // namespace

Result<PrinterProfile> updated_profile(const PrinterProfile& profile, const ReadingSession& session,
                                       const Check& check) {
  const bool kept = check.verdict != CheckVerdict::start_again;
  if (profile.feeds.empty() && kept) return findings::no_feeds_kept();
  return estimated_again(profile, session, kept, false, event_of(check, session.source));
}

Result<PrinterProfile> recentred_profile(const PrinterProfile& profile,
                                         const ReadingSession& session) {
  if (profile.feeds.empty()) return findings::no_feeds_kept();
  const auto sheets = static_cast<std::int64_t>(session.readings.sheets.size());
  return estimated_again(profile, session, true, true, findings::recentred(sheets, session.source));
}

std::optional<LeftAfterCorrection> left_after_correction(const Readings& readings) {
  LeftAfterCorrection left;
  RegistrationVector sum = RegistrationVector::Zero();
  for (const SheetReading& s : readings.sheets) {
    if (!s.correction) continue;
    sum += s.registration.vec();
    ++left.sheets;
  }
  if (left.sheets == 0) return std::nullopt;
  left.mean = Registration::from(sum / left.sheets);
  return left;
}

const char* to_string(CheckVerdict verdict) {
  switch (verdict) {
    case CheckVerdict::pool:
      return "pool";
    case CheckVerdict::recentre:
      return "recentre";
    case CheckVerdict::start_again:
      return "start_again";
  }
  return "";
}

}  // namespace versolay
