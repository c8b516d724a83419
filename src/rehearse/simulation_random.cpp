#include "rehearse/simulation_random.h"

#include <cmath>

namespace versolay::rehearse {
namespace {

constexpr std::uint64_t kStep = 0x9E3779B97F4A7C15u;

std::uint64_t mixed(std::uint64_t z) {
  z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
  z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
  return z ^ (z >> 31);
}

}  // namespace

Random::Random(std::uint64_t seed, std::string_view purpose, std::uint64_t number)
    : state_(mixed(seed + kStep)) {
  for (char c : purpose) state_ = mixed(state_ ^ static_cast<unsigned char>(c)) + kStep;
  state_ = mixed(state_ ^ mixed(number + kStep));
}

std::uint64_t Random::bits() {
  state_ += kStep;
  return mixed(state_);
}

double Random::uniform() { return static_cast<double>(bits() >> 11) * 0x1.0p-53; }

double Random::uniform(double low, double high) { return low + (high - low) * uniform(); }

double Random::normal(double sd) {
  double u, v, s;
  do {
    u = uniform(-1.0, 1.0);
    v = uniform(-1.0, 1.0);
    s = u * u + v * v;
  } while (s >= 1.0 || s == 0.0);
  return sd * u * std::sqrt(-2.0 * std::log(s) / s);
}

int Random::below(int limit) { return static_cast<int>(uniform() * static_cast<double>(limit)); }

float Random::quick_normal() {
  const std::uint64_t b = bits();
  const auto sum =
      static_cast<float>((b & 0xFFFF) + ((b >> 16) & 0xFFFF) + ((b >> 32) & 0xFFFF) + (b >> 48));
  constexpr float kSdOfSum = 37837.227f;  // 65536 / sqrt(12) * sqrt(4)
  return (sum - 2.0f * 65535.0f) / kSdOfSum;
}

}  // namespace versolay::rehearse
