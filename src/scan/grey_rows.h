// Rows of colour samples to rows of grey: small loops that the compiler can vectorise.
// Every function converts `n` pixels; source and target do not overlap unless said.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>

namespace versolay::scan {

using GreyTable = std::array<std::uint8_t, 256>;

/// BT.601 luma with weights of 8 bits; within one level of the exact value, exact for greys.
constexpr std::uint8_t luma(unsigned r, unsigned g, unsigned b) {
  return static_cast<std::uint8_t>((77 * r + 150 * g + 29 * b + 128) >> 8);
}

/// 16 to 8 bits, rounded: v * 255 / 65535.
constexpr std::uint8_t from_16_bits(unsigned v) {
  return static_cast<std::uint8_t>((v * 255u + 32895u) >> 16);
}

/// A value seen through to white paper by `alpha`: 255 opaque, 0 all white.
constexpr std::uint8_t over_white(unsigned value, unsigned alpha) {
  return static_cast<std::uint8_t>((value * alpha + 255 * (255 - alpha) + 127) / 255);
}

void grey_from_rgb(const std::uint8_t* rgb, std::uint8_t* grey, std::size_t n) noexcept;
void grey_from_rgba(const std::uint8_t* rgba, std::uint8_t* grey, std::size_t n) noexcept;
void grey_from_grey_alpha(const std::uint8_t* ga, std::uint8_t* grey, std::size_t n) noexcept;
void grey_by_table(std::uint8_t* in_place, std::size_t n, const GreyTable& table) noexcept;
/// Native-endian samples of 16 bits to 8 bits; `n` samples, not pixels.
void bytes_from_16_bits(const std::uint16_t* samples, std::uint8_t* bytes, std::size_t n) noexcept;
/// Samples of 1, 2 or 4 bits, first in the high bits, to one byte each through a table.
void grey_from_packed(const std::uint8_t* packed, int bits, std::uint8_t* grey, std::size_t n,
                      const GreyTable& table) noexcept;

}  // namespace versolay::scan
