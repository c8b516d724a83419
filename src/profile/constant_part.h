// Is the mean registration significant?
#pragma once

#include "stats/hotelling.h"
#include "stats/sample.h"
#include "versolay/printer_profile.h"

namespace versolay {

/// This many differing sessions are a sample of sessions; fewer say nothing about another day.
inline constexpr std::size_t kFewestSessions = 4;

/// What the mean of a profile rests on: n independent values (feeds, or sessions where these are a
/// sample of sessions), the covariance of one of them, its degrees of freedom.
struct MeanSource {
  RegistrationMatrix covariance;
  int n = 0;
  int dof = 0;
};
MeanSource mean_source(const PrinterProfile& profile);
/// The mean with what it rests on: the first components, with the spread of their source.
stats::Sample mean_sample(const PrinterProfile& profile, int components);
bool sessions_are_a_sample(const PrinterProfile& profile);
/// Two or three sessions that differ: the mean is that of the newest, and of another day nothing is
/// known. Not once fresh sheets of the day have been added (a session that was recentred on).
bool sessions_moved(const PrinterProfile& profile);
int used_sessions(const PrinterProfile& profile);  // with feeds that count

/// Tests of "the mean offset (and rotation) is zero".
///
/// Hotelling's T2 looks in all directions at once, but has next to no power when there are hardly
/// more feeds than components: five feeds 6 standard errors off pass for luck. Student's t of each
/// component by Bonferroni has. Each is allowed half of the 5 %.
struct ConstantPart {
  std::optional<stats::HotellingTest> hotelling;  // nullopt: too few feeds for it
  stats::BonferroniT bonferroni;
  double p_value = 1.0;
  bool real = false;  // p < 0.05
};

/// @param components  how many of (dx, dy, rotation) to look at: 3, or 2 without the rotation.
/// The scales and the shear follow the verdict: they cannot be set by hand.
/// Precondition: profile.spread_dof >= 1.
ConstantPart test_constant_part(const PrinterProfile& profile, int components);

}  // namespace versolay
