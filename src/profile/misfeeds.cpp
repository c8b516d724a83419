#include "profile/misfeeds.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "profile/findings.h"
#include "stats/outliers.h"

namespace versolay {
namespace {

constexpr double kMisfeedLevel = 0.01 / 3;
constexpr double kGrossMm = 1.0;
constexpr double kRobustSds = 5.0;

/// How far it moves the corners of the page.
double moved_mm(const Misfeed& m) { return m.component < 2 ? m.off().mm : m.at_corners().mm; }

}  // namespace

bool is_misfeed(const ProfileFeed& feed) {
  return feed.left_out && (*feed.left_out == findings::misfed);
}

Length Misfeed::off() const { return {std::abs(deviation)}; }
Angle Misfeed::turn() const { return {std::abs(deviation)}; }
Length Misfeed::at_corners() const { return {std::abs(deviation) * 1e-3 * half_diagonal_mm}; }

Term Misfeed::way() const {
  static constexpr std::array<std::array<std::string_view, 2>, 3> kWays = {
      {{"left", "right"}, {"up", "down"}, {"anticlockwise", "clockwise"}}};
  return {kWays[static_cast<std::size_t>(component)][deviation > 0 ? 1 : 0]};
}

Finding Misfeed::why() const {
  return component < 2 ? findings::misfed(off(), way())
                       : findings::misturned(turn(), way(), at_corners());
}

std::vector<Misfeed> find_misfeeds(std::span<const ProfileFeed> feeds, double half_diagonal_mm) {
  std::map<int, std::vector<std::size_t>> sessions;
  for (std::size_t i = 0; i < feeds.size(); ++i) sessions[feeds[i].session].push_back(i);

  std::map<std::size_t, Misfeed> found;
  for (int c = 0; c < 3; ++c) {
    // Sessions may lie apart: each is judged about its own middle, all together by one spread.
    std::vector<double> values(feeds.size());
    for (const auto& [session, members] : sessions) {
      std::vector<double> of_session;
      for (std::size_t i : members) of_session.push_back(feeds[i].registration.vec()[c]);
      const double middle = stats::robust_summary(of_session).median;
      for (std::size_t k = 0; k < members.size(); ++k) values[members[k]] = of_session[k] - middle;
    }
    const double gross = c < 2 ? kGrossMm : kGrossMm / (half_diagonal_mm * 1e-3);
    for (const stats::Outlier& o :
         stats::find_outliers(values, {kMisfeedLevel, gross, kRobustSds})) {
      const auto at = static_cast<std::size_t>(o.index);
      const Misfeed here{at, o.gross, c, o.deviation, half_diagonal_mm};
      const auto [known, is_new] = found.try_emplace(at, here);
      if (is_new) continue;
      // Of several components that are off, the one that moves the corners most is named.
      const bool either_is_gross = known->second.gross || o.gross;
      if (moved_mm(here) > moved_mm(known->second)) known->second = here;
      known->second.gross = either_is_gross;
    }
  }
  std::vector<Misfeed> list;
  for (auto& [at, m] : found) list.push_back(std::move(m));
  return list;
}

}  // namespace versolay
