#include "stats/random.h"

#include <array>
#include <cmath>

#include "core/expect.h"

namespace versolay::stats {
namespace {

constexpr int kLayers = 256;
constexpr double kTailStart = 3.6541528853610088;      // of 256 layers of equal area ...
constexpr double kLayerArea = 0.00492867323397465524;  // ... (Marsaglia & Tsang, 2000)

struct Ziggurat {
  std::array<double, kLayers + 1> x;  // right end of each layer
  std::array<double, kLayers + 1> f;  // exp(-x^2 / 2) there
  std::array<double, kLayers> sure;   // x[i + 1] / x[i]: below it, inside without a look

  Ziggurat() {
    const auto density = [](double at) { return std::exp(-0.5 * at * at); };
    x[0] = kLayerArea / density(kTailStart);
    x[1] = kTailStart;
    for (std::size_t i = 2; i < kLayers; ++i) {
      x[i] = std::sqrt(-2.0 * std::log(kLayerArea / x[i - 1] + density(x[i - 1])));
    }
    x[kLayers] = 0.0;
    for (std::size_t i = 0; i <= kLayers; ++i) f[i] = density(x[i]);
    for (std::size_t i = 0; i < kLayers; ++i) sure[i] = x[i + 1] / x[i];
  }
};

const Ziggurat kZiggurat;

/// Finaliser of SplitMix64: neighbouring seeds become unrelated. Source  Steele, Lea & Flood,
/// OOPSLA 2014.
std::uint64_t mixed(std::uint64_t z) {
  z += 0x9E3779B97F4A7C15u;
  z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
  z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
  return z ^ (z >> 31);
}

double open_unit(std::uint64_t word) { return (static_cast<double>(word >> 12) + 0.5) * 0x1p-52; }

/// The rare part of the ziggurat (under 1 % of the calls); false: draw again.
bool slow_normal(std::mt19937_64& engine, std::size_t layer, double u, double& value) {
  const Ziggurat& z = kZiggurat;
  if (layer == 0) {
    double beyond = 0.0;
    double height = 0.0;
    do {
      beyond = -std::log(open_unit(engine())) / kTailStart;
      height = -std::log(open_unit(engine()));
    } while (2.0 * height < beyond * beyond);
    value = u < 0 ? -kTailStart - beyond : kTailStart + beyond;
    return true;
  }
  value = u * z.x[layer];
  const double height = z.f[layer] + open_unit(engine()) * (z.f[layer + 1] - z.f[layer]);
  return height < std::exp(-0.5 * value * value);
}

inline double draw_normal(std::mt19937_64& engine) {
  for (;;) {
    const std::uint64_t word = engine();
    const std::size_t layer = word & (kLayers - 1);
    // Bits 11..63 make a number symmetric about zero in (-1, 1); bits 0..7 chose the layer.
    const double u = (static_cast<double>(static_cast<std::int64_t>(word) >> 11) + 0.5) * 0x1p-52;
    if (std::abs(u) < kZiggurat.sure[layer]) return u * kZiggurat.x[layer];
    double value = 0.0;
    if (slow_normal(engine, layer, u, value)) return value;
  }
}

}  // namespace

Random::Random(std::uint64_t seed, std::uint64_t stream)
    : engine_(mixed(mixed(seed) ^ (stream * 0xD1342543DE82EF95u + 1))) {}

double Random::uniform() { return open_unit(engine_()); }

double Random::normal() { return draw_normal(engine_); }

double Random::chi_squared(double dof) {
  expect(dof > 0);
  const double shape = dof / 2;
  if (shape < 1) {  // gamma(a) = gamma(a + 1) U^(1/a)
    const double larger = chi_squared(dof + 2);
    return larger * std::pow(uniform(), 1 / shape);
  }
  const double d = shape - 1.0 / 3;
  const double c = 1 / std::sqrt(9 * d);
  for (;;) {
    const double x = normal();
    const double root = 1 + c * x;
    if (root <= 0) continue;
    const double v = root * root * root;
    if (std::log(uniform()) < 0.5 * x * x + d - d * v + d * std::log(v)) return 2 * d * v;
  }
}

void Random::fill_normal(std::span<float> values) {
  for (float& value : values) value = static_cast<float>(draw_normal(engine_));
}

}  // namespace versolay::stats
