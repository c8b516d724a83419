#include "profile/check_remarks.h"

#include <Eigen/LU>
#include <algorithm>
#include <string>
#include <vector>

#include "profile/findings.h"

namespace versolay {
namespace {

std::vector<std::string> known_sheet_numbers(const PrinterProfile& profile,
                                             const Readings& readings) {
  std::vector<std::string> known;
  for (const SheetReading& sheet : readings.sheets) {
    const bool is_known =
        std::any_of(profile.feeds.begin(), profile.feeds.end(), [&](const ProfileFeed& feed) {
          return !sheet.run.empty() && feed.run == sheet.run && feed.sheet == sheet.sheet;
        });
    if (is_known) known.push_back(std::to_string(sheet.sheet));
  }
  return known;
}

/// Chi-squared of a mean of n new sheets (dx, dy) against what is expected of it.
double distance2(const PrinterProfile& profile, double n, const Eigen::Vector2d& off) {
  const Eigen::Matrix2d spread = profile.spread_covariance.topLeftCorner<2, 2>();
  const Eigen::Matrix2d of_mean = spread * (1 / n + 1.0 / std::max(1, profile.mean_feeds));
  if (!(of_mean.determinant() > 0)) return 0.0;
  return off.dot(of_mean.inverse() * off);
}

}  // namespace

std::optional<Notice> known_sheets(const PrinterProfile& profile, const Readings& readings) {
  const std::vector<std::string> known = known_sheet_numbers(profile, readings);
  if (known.empty()) return std::nullopt;
  return findings::sheets_known(known);
}

bool looks_corrected(const PrinterProfile& profile, const Readings& readings) {
  constexpr double kFarOff = 13.82;  // 99.9 % of chi2 with 2 degrees of freedom
  constexpr double kMuchNearer = 4;  // half the distance: few sheets do not lie where they should
  if (readings.sheets.size() < 2) return false;
  Eigen::Vector2d mean(0, 0);
  for (const SheetReading& sheet : readings.sheets) {
    if (sheet.correction) return false;  // says itself what it was printed with
    mean += sheet.registration.vec().head<2>() / static_cast<double>(readings.sheets.size());
  }
  const auto n = static_cast<double>(readings.sheets.size());
  const double from_profile = distance2(profile, n, mean - profile.mean.vec().head<2>());
  return from_profile > kFarOff && kMuchNearer * distance2(profile, n, mean) < from_profile;
}

}  // namespace versolay
