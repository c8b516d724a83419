// Checks that hold for image files of every kind.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>

#include "images/picture_error.h"
#include "versolay/result.h"

namespace versolay {

/// What a decoder says of a picture, with the name of the file and what to do.
/// @param format  "PNG", "JPEG", "TIFF".
Error in_words(const images::PictureError& fault, const char* format, const std::string& file);

/// Throws Error when the size that a header announces is zero or larger than any sheet of cards
/// needs: a small file can unpack to gigabytes.
void check_image_size(std::uint64_t width_px, std::uint64_t height_px, const std::string& file);

/// Throws Error when a picture that has to be unpacked (transparency, interlacing, TIFF, a look at
/// its pixels) would take more than 450 MB. Precondition: check_image_size.
void check_pixels_to_decode(int width_px, int height_px, const std::string& file);

/// Throws Error when a file of several pages comes without saying which of them is meant (`page`
/// 0), and when it has no such page.
void check_page(int page, int pages, const std::filesystem::path& file);

/// The profile if it is an ICC profile for that many components, else empty.
/// Source  ICC.1:2022, 7.2: colour space at byte 16, 'acsp' at byte 36, size at byte 0.
std::string matching_icc_profile(std::string profile, int components);

inline std::uint32_t big_endian(std::string_view bytes, std::size_t at, int count) {
  std::uint32_t value = 0;
  for (int i = 0; i < count; ++i) {
    value = value << 8 | static_cast<unsigned char>(bytes[at + static_cast<std::size_t>(i)]);
  }
  return value;
}

}  // namespace versolay
