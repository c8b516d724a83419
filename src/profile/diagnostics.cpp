#include "profile/diagnostics.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "profile/findings.h"
#include "profile/misfeeds.h"
#include "stats/feed_order.h"
#include "stats/normality.h"
#include "stats/outliers.h"
#include "stats/robust_distance.h"
#include "stats/variance_components.h"

namespace versolay {
namespace {

constexpr Eigen::Index kFewestForRun = 5;
constexpr std::uint64_t kRunSeed = 20250105;
constexpr std::size_t kFewestForNormality = 8;
constexpr double kDistanceLevel = 0.01;  // of the farthest feed
constexpr std::uint64_t kDistanceSeed = 20250104;

/// Values of one component about the means of their sessions, all of one variance.
std::vector<double> standardised(const PrinterProfile& profile, int component) {
  std::map<int, std::vector<double>> sessions;
  for (const ProfileFeed& f : profile.feeds) {
    if (!f.left_out) sessions[f.session].push_back(f.registration.vec()[component]);
  }
  std::vector<double> values;
  for (const auto& [session, of_session] : sessions) {
    const auto n = static_cast<double>(of_session.size());
    if (n < 2) continue;
    double mean = 0.0;
    for (double v : of_session) mean += v / n;
    for (double v : of_session) values.push_back((v - mean) / std::sqrt(1 - 1 / n));
  }
  return values;
}

/// Feeds about the middle of their session, in the components (of dx, dy, rotation) that vary.
Eigen::MatrixXd about_their_sessions(const PrinterProfile& profile,
                                     const std::vector<std::size_t>& feeds) {
  std::vector<int> varying;
  for (int c = 0; c < 3; ++c) {
    if (profile.spread_covariance(c, c) > 0) varying.push_back(c);
  }
  Eigen::MatrixXd rows(feeds.size(), varying.size());
  for (std::size_t k = 0; k < varying.size(); ++k) {
    std::map<int, std::vector<double>> sessions;
    const auto value = [&](std::size_t i) {
      return profile.feeds[i].registration.vec()[varying[k]];
    };
    for (std::size_t i : feeds) sessions[profile.feeds[i].session].push_back(value(i));
    for (std::size_t row = 0; row < feeds.size(); ++row) {
      const auto& session = sessions[profile.feeds[feeds[row]].session];
      rows(static_cast<Eigen::Index>(row), static_cast<Eigen::Index>(k)) =
          value(feeds[row]) - stats::robust_summary(session).median;
    }
  }
  return rows;
}

}  // namespace

void judge_distances(PrinterProfile& profile) {
  std::vector<std::size_t> looked_at;  // misfeeds too: the middle does not mind them
  for (std::size_t i = 0; i < profile.feeds.size(); ++i) {
    const ProfileFeed& feed = profile.feeds[i];
    if (!feed.left_out || is_misfeed(feed)) looked_at.push_back(i);
  }
  const Eigen::MatrixXd rows = about_their_sessions(profile, looked_at);
  if (rows.cols() < 2) return;  // one component: find_misfeeds
  const auto robust = stats::robust_distances(rows);
  if (!robust) return;
  profile.robust_limit = stats::robust_distance_limit(
      static_cast<int>(rows.rows()), static_cast<int>(rows.cols()), kDistanceLevel, kDistanceSeed);
  double farthest = 0.0;
  for (std::size_t k = 0; k < looked_at.size(); ++k) {
    ProfileFeed& feed = profile.feeds[looked_at[k]];
    feed.robust_distance = robust->distances[k];
    if (feed.left_out) continue;
    farthest = std::max(farthest, feed.robust_distance);
    if (feed.robust_distance <= profile.robust_limit) continue;
    profile.warnings.push_back(findings::stands_out_together(
        feed.sheet, profile.sessions[static_cast<std::size_t>(feed.session)].source,
        feed.robust_distance, profile.robust_limit));
  }
  const bool some = farthest > profile.robust_limit;
  profile.tests.push_back(
      {"farthest feed (minimum covariance determinant)", farthest, some ? kDistanceLevel : 1.0,
       some ? findings::some_feed_stands_out() : findings::no_feed_stands_out()});
}

std::vector<ComponentShare> component_shares(const PrinterProfile& profile,
                                             std::span<const stats::Sample> samples) {
  std::vector<ComponentShare> shares;
  for (int c = 0; c < 6; ++c) {
    const double spread = profile.spread_covariance(c, c);
    if (spread <= 0) continue;
    const double measured = profile.measurement_covariance(c, c);
    ComponentShare share;
    share.component = kRegistrationKeys[static_cast<std::size_t>(c)];
    share.feed_sd = std::sqrt(std::max(0.0, spread - measured));
    share.measurement_sd = std::sqrt(measured);
    share.measurement_share = measured / spread;
    if (samples.size() > 1) {
      const stats::VarianceComponents v = stats::variance_components(samples, c);
      share.session_sd = std::sqrt(v.between);
      share.session_sd_high = std::sqrt(v.between_high);
    }
    shares.push_back(std::move(share));
  }
  return shares;
}

void judge_normality(PrinterProfile& profile) {
  double smallest_p = 1.0;
  double statistic = 0.0;
  int looked_at = 0;
  for (int c = 0; c < 3; ++c) {
    const std::vector<double> values = standardised(profile, c);
    if (values.size() < kFewestForNormality || profile.spread_covariance(c, c) <= 0) continue;
    ++looked_at;
    const stats::AndersonDarling test = stats::anderson_darling(values);
    if (test.p_value < smallest_p) {
      smallest_p = test.p_value;
      statistic = test.adjusted;
    }
  }
  if (looked_at == 0) return;
  const double p = std::min(1.0, looked_at * smallest_p);
  profile.heavy_tails = p < kOneScatterLevel;
  profile.tests.push_back(
      {"normal feeds (Anderson-Darling)", statistic, p,
       profile.heavy_tails ? findings::feeds_not_normal() : findings::feeds_normal()});
  if (profile.heavy_tails) profile.warnings.push_back(findings::heavy_tails());
}

namespace {

/// The longest session in the order of its feeds, in those of dx, dy and rotation that vary.
Eigen::MatrixXd longest_run(const PrinterProfile& profile, std::vector<int>& components) {
  std::map<int, std::vector<const ProfileFeed*>> sessions;
  for (const ProfileFeed& f : profile.feeds) {
    if (!f.left_out) sessions[f.session].push_back(&f);
  }
  std::vector<const ProfileFeed*> longest;
  for (auto& [session, feeds] : sessions) {
    if (feeds.size() > longest.size()) longest = feeds;
  }
  std::stable_sort(longest.begin(), longest.end(),
                   [](const auto* a, const auto* b) { return a->sheet < b->sheet; });
  for (int c = 0; c < 3; ++c) {
    if (profile.spread_covariance(c, c) > 0) components.push_back(c);
  }
  Eigen::MatrixXd rows(longest.size(), components.size());
  for (Eigen::Index i = 0; i < rows.rows(); ++i) {
    rows.row(i) = longest[static_cast<std::size_t>(i)]->registration.vec()(components).transpose();
  }
  return rows;
}

}  // namespace

void judge_run(PrinterProfile& profile) {
  std::vector<int> components;
  const Eigen::MatrixXd run = longest_run(profile, components);
  if (run.rows() < kFewestForRun || run.cols() == 0) return;
  const auto ask = [&](const char* name, const stats::RunTest& test, const auto& odd,
                       const Finding& even) {
    const bool is_odd = test.p_value < kOneScatterLevel;
    const auto component =
        static_cast<std::size_t>(components[static_cast<std::size_t>(test.component)]);
    const Finding found = odd(Term{kRegistrationKeys[component]});
    profile.tests.push_back({name, test.statistic, test.p_value, is_odd ? found : even});
    if (!is_odd) return;
    profile.heavy_tails = true;
    profile.warnings.push_back(found);
  };
  ask("trend over the run (Student t)", stats::trend_test(run, kRunSeed), findings::run_drifts,
      findings::run_does_not_drift());
  ask("two places (best cut)", stats::two_places_test(run, kRunSeed), findings::two_places,
      findings::one_place());
  ask("lopsided scatter (skewness)", stats::skewness_test(run, kRunSeed), findings::lopsided,
      findings::not_lopsided());
}

}  // namespace versolay
