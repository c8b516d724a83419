#include "profile/foretold.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "profile/constant_part.h"
#include "profile/pass_components.h"
#include "profile/test_settings.h"
#include "stats/effective_dof.h"
#include "stats/random.h"
#include "stats/two_sample.h"

namespace versolay {
namespace {

constexpr int kPlayed[] = {4, 5, 6, 7, 8, 9, 10, 12, 15, 20, 25, 31};
constexpr int kSamples = 60;
constexpr int kSheetsOfASpread = 3000;
constexpr int kTests = 500;
constexpr std::uint64_t kSeed = 20250107;

double oversize_of_sample(const stats::Sample& sample, const stats::CardCells& cards,
                          const stats::Promise& promise, std::uint64_t seed) {
  stats::FutureCards future;
  future.feeds = sample;
  future.correction = future.feeds.mean;
  future.cards = cards;
  const stats::PlugIn plug_in =
      stats::plug_in(future, {1.0, 1.0}, promise.coverage, kSheetsOfASpread, seed);
  return stats::factor_bound(plug_in, promise);
}

/// Between two numbers of sheets, evenly in the logarithms.
double interpolated(const std::map<int, double>& played, int n) {
  const auto above = played.lower_bound(n);
  if (above == played.end()) return played.rbegin()->second;
  if (above->first == n || above == played.begin()) return above->second;
  const auto below = std::prev(above);
  const double share = std::log(static_cast<double>(n) / below->first) /
                       std::log(static_cast<double>(above->first) / below->first);
  return below->second * std::pow(above->second / below->second, share);
}

/// How often the constant part is found, dx being off by so many sd.
double found(const std::vector<Eigen::MatrixXd>& samples, double offset) {
  int count = 0;
  for (const Eigen::MatrixXd& sample : samples) {
    PrinterProfile profile;
    const stats::Sample s = stats::sample_of(sample);
    profile.mean = Registration::from(s.mean);
    profile.mean.dx_mm += offset;
    profile.mean_feeds = s.n;
    profile.spread_covariance = s.covariance();
    profile.spread_dof = s.dof;
    count += test_constant_part(profile, kComponents).real ? 1 : 0;
  }
  return static_cast<double>(count) / static_cast<double>(samples.size());
}

}  // namespace

std::vector<double> foretold_oversizes(const std::vector<int>& sheets,
                                       const stats::CardCells& cards,
                                       const RegistrationMatrix& spread,
                                       const stats::Promise& promise) {
  const Eigen::MatrixXd root = stats::root_of_scatter(spread);
  std::map<int, double> played;
  for (int i = 0; i < kSamples; ++i) {
    stats::Random random(kSeed, static_cast<std::uint64_t>(i));
    Eigen::MatrixXd z(std::end(kPlayed)[-1], root.cols());
    for (double& value : z.reshaped()) value = random.normal();
    const Eigen::MatrixXd feeds = z * root.transpose();
    for (const int n : kPlayed) {
      const stats::Sample sample = stats::sample_of(feeds.topRows(n));
      played[n] += oversize_of_sample(sample, cards, promise, kSeed) / kSamples;
    }
  }
  std::vector<double> list;
  for (const int n : sheets) list.push_back(interpolated(played, n));
  return list;
}

double foretold_oversize(const FeedPlan& plan, const stats::CardCells& cards,
                         const RegistrationMatrix& spread, double sheet_share,
                         const stats::Promise& promise) {
  const Eigen::MatrixXd root = stats::root_of_scatter(spread);
  RegistrationMatrix kept = RegistrationMatrix::Zero();
  for (int c = 0; c < 6; ++c) kept(c, c) = spread(c, c) > 0 ? 1.0 : 0.0;
  constexpr TurnAxis kAxis = TurnAxis::vertical;  // halves that scatter equally: either will do
  const double pass_share = (1 - sheet_share) / 2;
  double sum = 0.0;
  for (int i = 0; i < kSamples; ++i) {
    stats::Random random(kSeed + 3, static_cast<std::uint64_t>(i));
    const auto drawn = [&](double share) -> RegistrationVector {
      Eigen::VectorXd z(root.cols());
      for (double& value : z) value = random.normal();
      return std::sqrt(share) * (root * z);
    };
    std::vector<ProfileFeed> feeds;
    for (int s = 1; s <= plan.sheets; ++s) {
      const RegistrationVector of_sheet = drawn(sheet_share);
      const RegistrationVector front = drawn(pass_share);
      const RegistrationVector back = drawn(pass_share);
      for (int pass = 1; pass <= plan.passes; ++pass) {
        const RegistrationVector f = pass == 1 ? front : drawn(pass_share);
        const RegistrationVector b = pass == 1 ? back : drawn(pass_share);
        ProfileFeed& feed = feeds.emplace_back();
        feed.sheet = s;
        feed.run = "A";
        feed.pass = pass;
        feed.registration = Registration::from(of_sheet + b - f);
        feed.verso_pass_lay = Registration::from(b - back);
        feed.recto_pass_lay =
            Registration::from(seen_from_back(Registration::from(f - front), kAxis));
      }
    }
    sum += oversize_of_sample(equivalent_sample(feeds, kAxis, kept), cards, promise, kSeed);
  }
  return sum / kSamples;
}

double foretold_offset(int sheets) {
  std::vector<Eigen::MatrixXd> samples;
  for (int i = 0; i < kTests; ++i) {
    stats::Random random(kSeed + 1, static_cast<std::uint64_t>(i));
    Eigen::MatrixXd sample = Eigen::MatrixXd::Zero(sheets, 6);
    for (Eigen::Index r = 0; r < sheets; ++r) {
      for (int c = 0; c < kComponents; ++c) sample(r, c) = random.normal();
    }
    samples.push_back(std::move(sample));
  }
  double low = 0.0;
  double high = 8.0;
  for (int step = 0; step < 12; ++step) {
    const double middle = (low + high) / 2;
    (found(samples, middle) < kPower ? low : high) = middle;
  }
  return high;
}

double foretold_spread_ratio(int sheets) {
  constexpr int kRuns = 200;
  const auto share = [&](double ratio) {
    int count = 0;
    for (int i = 0; i < kRuns; ++i) {
      stats::Random random(kSeed + 2, static_cast<std::uint64_t>(i));
      std::vector<double> a(static_cast<std::size_t>(sheets));
      std::vector<double> b(a.size());
      for (double& value : a) value = random.normal();
      for (double& value : b) value = ratio * random.normal();
      const double p = stats::spread_ratio(a, b, 1 - kLevel / kComponents, kSeed).p_value;
      count += p < kLevel / kComponents ? 1 : 0;
    }
    return static_cast<double>(count) / kRuns;
  };
  double low = 1.0;
  double high = 64.0;
  for (int step = 0; step < 9; ++step) {
    const double middle = std::sqrt(low * high);
    (share(middle) < kPower ? low : high) = middle;
  }
  return high;
}

}  // namespace versolay
