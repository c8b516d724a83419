// Random numbers that are the same on every machine and for every number of threads.
#pragma once

#include <cstdint>
#include <random>
#include <span>

namespace versolay::stats {

/// One stream of random numbers. Work that is shared among threads takes one stream per item, so
/// that an item gets the same numbers whoever works on it.
///
/// The engine is std::mt19937_64, whose output the C++ standard fixes; the distributions of the
/// standard library differ between implementations and are not used.
/// Normal: ziggurat with 256 layers. Source  Marsaglia & Tsang, J. Stat. Softw. 5(8), 2000, with
/// layer and abscissa taken from different bits (Doornik, 2005).
/// Chi-squared: gamma by Marsaglia & Tsang, ACM TOMS 26(3), 2000.
class Random {
 public:
  explicit Random(std::uint64_t seed, std::uint64_t stream = 0);

  double uniform();  // in the open interval (0, 1)
  double normal();   // N(0, 1)
  /// Precondition: dof > 0 (need not be whole).
  double chi_squared(double dof);
  /// N(0, 1) rounded to float.
  void fill_normal(std::span<float> values);

 private:
  std::mt19937_64 engine_;
};

}  // namespace versolay::stats
