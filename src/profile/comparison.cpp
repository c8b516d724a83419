#include "profile/comparison.h"

#include <algorithm>
#include <cmath>

#include "profile/constant_part.h"
#include "profile/findings.h"
#include "profile/test_settings.h"
#include "stats/hotelling.h"
#include "stats/power.h"

namespace versolay {
namespace {

constexpr std::uint64_t kCompareSeed = 20250101;

/// Of a sheet that was fed several times, its first pass: the others are no sheets of their own.
bool counts(const ProfileFeed& f) { return !f.left_out && f.pass == 1; }

/// Values of one component about the mean of their session.
std::vector<double> within_sessions(const PrinterProfile& profile, int component) {
  std::vector<double> sum(profile.sessions.size(), 0.0);
  std::vector<int> count(profile.sessions.size(), 0);
  for (const ProfileFeed& f : profile.feeds) {
    if (!counts(f)) continue;
    sum[static_cast<std::size_t>(f.session)] += f.registration.vec()[component];
    ++count[static_cast<std::size_t>(f.session)];
  }
  std::vector<double> values;
  for (const ProfileFeed& f : profile.feeds) {
    const auto s = static_cast<std::size_t>(f.session);
    if (counts(f)) values.push_back(f.registration.vec()[component] - sum[s] / count[s]);
  }
  return values;
}

std::vector<Eigen::Vector3d> used_feeds(const PrinterProfile& profile) {
  std::vector<Eigen::Vector3d> list;
  for (const ProfileFeed& f : profile.feeds) {
    if (counts(f)) list.push_back(f.registration.vec().head<kComponents>());
  }
  return list;
}

stats::Interval difference_of_pairs(const stats::Sample& d, int c, double confidence) {
  const double se = std::sqrt(std::max(0.0, d.covariance()(c, c)) / d.n);
  const double half = se * stats::t_half_width(d.dof, confidence);
  const stats::BonferroniT test = stats::bonferroni_t(
      {Eigen::VectorXd::Constant(1, d.mean[c]), d.covariance().block(c, c, 1, 1), d.n, d.dof});
  return {d.mean[c], d.mean[c] - half, d.mean[c] + half, test.p_value};
}

bool all_equal(const std::vector<double>& values) {
  return std::all_of(values.begin(), values.end(), [&](double v) { return v == values.front(); });
}

void compare_spread(ComponentComparison& component, const SetUp& a, const SetUp& b, int c) {
  const std::vector<double> of_a = within_sessions(a.profile, c);
  const std::vector<double> of_b = within_sessions(b.profile, c);
  if (static_cast<int>(std::min(of_a.size(), of_b.size())) < kFewestForSpread || all_equal(of_a) ||
      all_equal(of_b)) {
    component.spread_ratio = {1.0, 0.0, 0.0, 1.0};
    return;
  }
  component.spread_known = true;
  component.spread_ratio = stats::spread_ratio(of_a, of_b, 1 - kLevel / kComponents,
                                               kCompareSeed + static_cast<unsigned>(c));
  component.spread_differs = component.spread_ratio.p_value < kLevel / kComponents;
}

double p_of_all(const Comparison& c) {
  double smallest = 1.0;
  for (const ComponentComparison& one : c.components) {
    smallest = std::min(smallest, one.difference.p_value);
  }
  return std::min(1.0, kComponents * smallest);
}

std::optional<Refusal> why_not(const SetUp& a, const SetUp& b, bool paired) {
  for (const SetUp* s : {&a, &b}) {
    if (paired && s->profile.feeds.empty()) {
      return findings::no_feeds_to_pair(s->name);
    }
    if (s->profile.spread_dof < 1) {
      return findings::one_sheet_only(s->name);
    }
  }
  if (!(a.profile.paper == b.profile.paper)) {
    return findings::mixed_papers(a.name, a.profile.paper.name, b.name, b.profile.paper.name);
  }
  if (paired && used_feeds(a.profile).size() != used_feeds(b.profile).size()) {
    return findings::not_paired(a.name, static_cast<std::int64_t>(used_feeds(a.profile).size()),
                                b.name, static_cast<std::int64_t>(used_feeds(b.profile).size()));
  }
  return std::nullopt;
}

}  // namespace

Result<Comparison> compare_set_ups(const SetUp& a, const SetUp& b, bool paired) {
  if (const auto refusal = why_not(a, b, paired)) return *refusal;
  Comparison result;
  result.a = a.name;
  result.b = b.name;
  result.paired = paired;
  result.one_fed_round = is_fed_round(a) != is_fed_round(b);
  result.n_a = a.profile.n_feeds;
  result.n_b = b.profile.n_feeds;
  const double confidence = 1 - kLevel / kComponents;
  const stats::Sample of_a = mean_sample(a.profile, kComponents);
  const stats::Sample of_b = mean_sample(b.profile, kComponents);
  stats::Sample pairs;
  if (paired) {
    const auto feeds_a = used_feeds(a.profile);
    const auto feeds_b = used_feeds(b.profile);
    Eigen::MatrixXd rows(static_cast<Eigen::Index>(feeds_a.size()), kComponents);
    for (std::size_t i = 0; i < feeds_a.size(); ++i) {
      rows.row(static_cast<Eigen::Index>(i)) = (feeds_b[i] - feeds_a[i]).transpose();
    }
    pairs = stats::sample_of(rows);
  }
  const int smaller = std::min(of_a.n, of_b.n);
  for (int c = 0; c < kComponents; ++c) {
    ComponentComparison& component = result.components[static_cast<std::size_t>(c)];
    component.difference = paired ? difference_of_pairs(pairs, c, confidence)
                                  : stats::welch_difference(of_a, of_b, c, confidence);
    component.differs = component.difference.p_value < kLevel / kComponents;
    if (smaller >= 2) {
      component.detectable_difference =
          paired ? stats::detectable_mean(pairs.n, kLevel / kComponents, kPower) *
                       std::sqrt(pairs.covariance()(c, c))
                 : stats::detectable_difference(smaller, kLevel / kComponents, kPower) *
                       std::sqrt((of_a.covariance()(c, c) + of_b.covariance()(c, c)) / 2);
    }
    compare_spread(component, a, b, c);
  }
  if (!paired && stats::two_sample_is_possible(of_a, of_b)) {
    const stats::TwoSampleT2 test = stats::krishnamoorthy_yu(of_a, of_b);
    result.t2 = test.t2;
    result.nu = test.nu;
    // Half of the level each: T2 looks in all directions, the components one by one.
    result.p_value = std::min(1.0, 2 * std::min(test.p_value, p_of_all(result)));
  } else {
    result.p_value = p_of_all(result);
  }
  result.differs = result.p_value < kLevel;
  if (smaller >= 2) {
    result.detectable_spread_ratio = stats::detectable_spread_ratio(
        std::min(result.n_a, result.n_b), kLevel / kComponents, kPower);
  }
  return result;
}

bool is_fed_round(const SetUp& set_up) {
  const auto& feeds = set_up.profile.feeds;
  return !feeds.empty() &&
         std::all_of(feeds.begin(), feeds.end(), [](const ProfileFeed& f) { return f.fed_round; });
}

ChanceTest test_chance(const SetUp& set_up) {
  const PrinterProfile& p = set_up.profile;
  ChanceTest test;
  test.name = set_up.name;
  double constant = 0.0;
  double chance = 0.0;
  constexpr int kCorners = 4;
  for (const double x : {-0.5, 0.5}) {
    for (const double y : {-0.5, 0.5}) {
      const auto j = displacement_jacobian({x * p.paper.width_mm, y * p.paper.height_mm});
      // The mean is itself off by chance: its own variance is taken out again.
      constant +=
          ((j * p.mean.vec()).squaredNorm() - (j * p.mean_covariance * j.transpose()).trace()) /
          kCorners;
      chance += (j * p.spread_covariance * j.transpose()).trace() / kCorners;
    }
  }
  constant = std::max(0.0, constant);
  test.constant_mm = std::sqrt(constant);
  test.chance_mm = std::sqrt(chance);
  test.constant_share = constant + chance > 0 ? constant / (constant + chance) : 0.0;
  test.p_value = test_constant_part(p, 3).p_value;
  test.only_chance_possible = test.p_value >= kLevel;
  return test;
}

}  // namespace versolay
