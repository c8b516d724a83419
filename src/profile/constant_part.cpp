#include "profile/constant_part.h"

#include <algorithm>
#include <cassert>

namespace versolay {

ConstantPart test_constant_part(const PrinterProfile& profile, int components) {
  assert(profile.spread_dof >= 1 && (components == 2 || components == 3));
  const stats::MeanVector m{profile.mean.vec().head(components),
                            profile.spread_covariance.topLeftCorner(components, components),
                            profile.mean_feeds, profile.spread_dof};
  constexpr double kLevel = 0.05;
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
