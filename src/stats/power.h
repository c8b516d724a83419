// What a number of sheets can show.
#pragma once

namespace versolay::stats {

/// Smallest true mean, in standard deviations of the observations, that Student's t test of n
/// observations (pairs: their differences) finds with the given power, two-sided level alpha.
/// Precondition: n >= 2. By the noncentral t.
double detectable_mean(int n, double alpha, double power);

/// Smallest difference of two means of n observations each, in their common standard deviation.
double detectable_difference(int n, double alpha, double power);

/// Smallest ratio of two standard deviations that n normal observations each can show, by the
/// normal approximation of the log of the ratio.
double detectable_spread_ratio(int n, double alpha, double power);

}  // namespace versolay::stats
