#include "profile/diagnostics.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "stats/normality.h"
#include "stats/variance_components.h"

namespace versolay {
namespace {

constexpr double kNormalityLevel = 0.01;
constexpr std::size_t kFewestForNormality = 8;

/// Values of one component about the means of their sessions, all of one variance.
std::vector<double> standardised(const PrinterProfile& profile, int component) {
  std::map<int, std::vector<double>> sessions;
  for (const ProfileFeed& f : profile.feeds) {
    if (f.left_out.empty()) sessions[f.session].push_back(f.registration.vec()[component]);
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

}  // namespace

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
  profile.heavy_tails = p < kNormalityLevel;
  profile.tests.push_back(
      {"normal feeds (Anderson-Darling)", statistic, p,
       profile.heavy_tails
           ? "The feeds do not look normally distributed: large errors are more frequent than the "
             "spread suggests. Use the heavy-tail figure of advise."
           : "The feeds look normally distributed, as far as so few can tell."});
  if (profile.heavy_tails) {
    profile.warnings.push_back(
        {"heavy_tails",
         "The feeds do not look normally distributed. Look for sheets that were fed differently; "
         "if there is no reason for them, go by the heavy-tail figure of advise"});
  }
}

}  // namespace versolay
