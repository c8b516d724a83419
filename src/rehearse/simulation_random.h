// The simulation's random numbers: the same seed gives the same sheets on every machine, whatever
// the number of threads, because every piece of work draws from its own named stream.
#pragma once

#include <cstdint>
#include <string_view>

namespace versolay::rehearse {

/// SplitMix64. Source  Steele, Lea, Flood, "Fast splittable pseudorandom number generators",
/// OOPSLA 2014; constants as in the public-domain splitmix64.c of S. Vigna.
class Random {
 public:
  /// The stream for one purpose; streams of other purposes or numbers are unrelated.
  Random(std::uint64_t seed, std::string_view purpose, std::uint64_t number = 0);

  std::uint64_t bits();
  double uniform();                         // [0, 1)
  double uniform(double low, double high);  // [low, high)
  double normal(double sd = 1.0);           // mean 0; Marsaglia's polar method
  int below(int limit);                     // 0 .. limit - 1
  /// Nearly normal (sum of four uniforms, never beyond 3.46 sd), sd 1; for the millions of pixels.
  float quick_normal();

 private:
  std::uint64_t state_;
};

}  // namespace versolay::rehearse
