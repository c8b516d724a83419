#include "profile/constant_part.h"

#include <algorithm>

#include "core/expect.h"
#include "profile/findings.h"
#include "profile/test_settings.h"

namespace versolay {

int used_sessions(const PrinterProfile& profile) {
  return static_cast<int>(std::count_if(profile.sessions.begin(), profile.sessions.end(),
                                        [](const ProfileSession& s) { return s.n_feeds > 0; }));
}

bool sessions_are_a_sample(const PrinterProfile& profile) {
  return !profile.session_covariance.isZero(0.0);
}

bool sessions_moved(const PrinterProfile& profile) {
  if (sessions_are_a_sample(profile)) return false;
  if (profile.passes) {  // the mean is worth fewer feeds in any case
    return std::any_of(profile.warnings.begin(), profile.warnings.end(),
                       [](const Notice& n) { return n == findings::sessions_differ; });
  }
  if (profile.mean_feeds >= profile.n_feeds) return false;
  return profile.history.empty() || !(profile.history.back().what == findings::recentred);
}

MeanSource mean_source(const PrinterProfile& profile) {
  if (sessions_are_a_sample(profile)) {
    const int sessions = used_sessions(profile);
    return {profile.session_covariance, sessions, sessions - 1};
  }
  return {profile.spread_covariance, profile.mean_feeds, profile.spread_dof};
}

stats::Sample mean_sample(const PrinterProfile& profile, int components) {
  const MeanSource source = mean_source(profile);
  return {profile.mean.vec().head(components),
          source.covariance.topLeftCorner(components, components) * source.dof, source.n,
          source.dof};
}

ConstantPart test_constant_part(const PrinterProfile& profile, int components) {
  expect(profile.spread_dof >= 1 && (components == 2 || components == 3));
  const MeanSource source = mean_source(profile);
  const stats::MeanVector m{profile.mean.vec().head(components),
                            source.covariance.topLeftCorner(components, components), source.n,
                            source.dof};
  ConstantPart part;
  part.bonferroni = stats::bonferroni_t(m);
  part.p_value = part.bonferroni.p_value;
  if (stats::hotelling_is_possible(m)) {
    part.hotelling = stats::hotelling_one_sample(m);
    part.p_value = std::min(1.0, 2 * std::min(part.bonferroni.p_value, part.hotelling->p_value));
  }
  part.real = part.p_value < kLevel;
  return part;
}

}  // namespace versolay
