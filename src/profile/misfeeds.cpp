#include "profile/misfeeds.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "core/numbers.h"
#include "core/translation.h"
#include "stats/outliers.h"

namespace versolay {
namespace {

constexpr double kMisfeedLevel = 0.01 / 3;
constexpr double kGrossMm = 1.0;
constexpr double kRobustSds = 5.0;

std::string words(int component, double deviation, double half_diagonal_mm) {
  static constexpr std::array<std::array<const char*, 2>, 2> kWays = {
      {{tr_noop("left"), tr_noop("right")}, {tr_noop("up"), tr_noop("down")}}};
  if (component < 2) {
    return tr("{} mm farther {} than the others", format_fixed(std::abs(deviation), 2),
              tr(kWays[static_cast<std::size_t>(component)][deviation > 0 ? 1 : 0]));
  }
  return tr("turned {} mrad more {} than the others, {} mm at the corners",
            format_fixed(std::abs(deviation), 2),
            deviation > 0 ? tr("clockwise") : tr("anticlockwise"),
            format_fixed(std::abs(deviation) * 1e-3 * half_diagonal_mm, 2));
}

}  // namespace

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
      Misfeed& m = found.try_emplace(at, Misfeed{at, false, ""}).first->second;
      m.gross = m.gross || o.gross;
      m.why += (m.why.empty() ? "" : "; ") + words(c, o.deviation, half_diagonal_mm);
    }
  }
  std::vector<Misfeed> list;
  for (auto& [at, m] : found) list.push_back(std::move(m));
  return list;
}

}  // namespace versolay
