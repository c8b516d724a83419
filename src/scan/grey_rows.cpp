#include "scan/grey_rows.h"

namespace versolay::scan {

void grey_from_rgb(const std::uint8_t* __restrict rgb, std::uint8_t* __restrict grey,
                   std::size_t n) noexcept {
  for (std::size_t i = 0; i < n; ++i) grey[i] = luma(rgb[3 * i], rgb[3 * i + 1], rgb[3 * i + 2]);
}

void grey_from_rgba(const std::uint8_t* __restrict rgba, std::uint8_t* __restrict grey,
                    std::size_t n) noexcept {
  for (std::size_t i = 0; i < n; ++i) {
    const std::uint8_t value = luma(rgba[4 * i], rgba[4 * i + 1], rgba[4 * i + 2]);
    grey[i] = over_white(value, rgba[4 * i + 3]);
  }
}

void grey_from_grey_alpha(const std::uint8_t* __restrict ga, std::uint8_t* __restrict grey,
                          std::size_t n) noexcept {
  for (std::size_t i = 0; i < n; ++i) grey[i] = over_white(ga[2 * i], ga[2 * i + 1]);
}

void grey_by_table(std::uint8_t* in_place, std::size_t n, const GreyTable& table) noexcept {
  for (std::size_t i = 0; i < n; ++i) in_place[i] = table[in_place[i]];
}

void bytes_from_16_bits(const std::uint16_t* __restrict samples, std::uint8_t* __restrict bytes,
                        std::size_t n) noexcept {
  for (std::size_t i = 0; i < n; ++i) bytes[i] = from_16_bits(samples[i]);
}

namespace {

/// Scanned line art is 1 bit: a choice of two values, without a branch or a look-up per pixel.
void grey_from_bits(const std::uint8_t* __restrict packed, std::uint8_t* __restrict grey,
                    std::size_t n_bytes, std::uint8_t zero, std::uint8_t one) noexcept {
  const unsigned change = zero ^ one;
  for (std::size_t i = 0; i < n_bytes; ++i) {
    const unsigned byte = packed[i];
    for (unsigned k = 0; k < 8; ++k) {
      const unsigned chosen = 0u - (byte >> (7 - k) & 1u);
      grey[8 * i + k] = static_cast<std::uint8_t>(zero ^ (change & chosen));
    }
  }
}

}  // namespace

void grey_from_packed(const std::uint8_t* __restrict packed, int bits,
                      std::uint8_t* __restrict grey, std::size_t n,
                      const GreyTable& table) noexcept {
  std::size_t done = 0;
  if (bits == 1) {
    grey_from_bits(packed, grey, n / 8, table[0], table[1]);
    done = n / 8 * 8;
  }
  const std::size_t per_byte = 8 / static_cast<std::size_t>(bits);
  const unsigned mask = (1u << bits) - 1;
  for (std::size_t i = done; i < n; ++i) {
    const std::size_t place = i % per_byte + 1;
    const unsigned shift = 8 - static_cast<unsigned>(bits) * static_cast<unsigned>(place);
    grey[i] = table[(static_cast<unsigned>(packed[i / per_byte]) >> shift) & mask];
  }
}

}  // namespace versolay::scan
