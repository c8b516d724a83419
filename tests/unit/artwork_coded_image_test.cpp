#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "artwork/coded_image.h"
#include "artwork/image_checks.h"
#include "artwork/orientation.h"
#include "artwork/raster.h"
#include "support/image_files.h"
#include "support/message_of.h"
#include "versolay/result.h"

namespace versolay {
namespace {

using namespace testing_support;
using testing::HasSubstr;

TEST(ParseJpeg, KeepsEveryByteAndReadsTheHeaders) {
  for (const bool progressive : {false, true}) {
    for (const int channels : {1, 3}) {
      const std::string bytes = jpeg_bytes(test_picture(70, 50, channels), progressive);
      const CodedImage image = parse_image(bytes, "bird.jpg");
      EXPECT_EQ(image.data, bytes);
      EXPECT_EQ(image.width_px, 70);
      EXPECT_EQ(image.height_px, 50);
      EXPECT_EQ(image.components, channels);
      EXPECT_EQ(image.orientation, 1);
      EXPECT_DOUBLE_EQ(image.ppi_x.value(), 300);
      EXPECT_FALSE(image.recoded);
    }
  }
}

TEST(ParseJpeg, ReadsTheOrientationInBothByteOrders) {
  for (const bool little : {false, true}) {
    for (int o = 1; o <= 8; ++o) {
      const CodedImage image = parse_image(
          jpeg_bytes(test_picture(40, 30, 3), false, 1, exif_orientation_block(o, little)), "x");
      EXPECT_EQ(image.orientation, o);
      EXPECT_EQ(image.seen_width_px(), o >= 5 ? 30 : 40);
    }
    EXPECT_EQ(
        parse_image(
            jpeg_bytes(test_picture(40, 30, 3), false, 1, exif_orientation_block(9, little)), "x")
            .orientation,
        1);
  }
}

TEST(ParseJpeg, KeepsAColourProfileThatFitsAndDropsOneThatDoesNot) {
  using namespace std::string_literals;
  const auto with = [](const std::string& space) {
    return parse_image(jpeg_bytes(test_picture(20, 20, 3), false, 2,
                                  "ICC_PROFILE\0\x01\x01"s + tiny_icc_profile(space)),
                       "x")
        .icc_profile;
  };
  EXPECT_EQ(with("RGB "), tiny_icc_profile("RGB "));
  EXPECT_EQ(with("CMYK"), "");
}

TEST(ParseJpeg, MarksCmykOfTheAdobeFamilyAsInverted) {
  EXPECT_TRUE(parse_image(jpeg_bytes(test_picture(20, 20, 4)), "x").inverted);
}

/// Of the kinds that differ in what is between their markers.
std::vector<std::string> kinds_of_jpegs() {
  const Raster picture = test_picture(70, 50, 3);
  return {jpeg_bytes(picture), jpeg_bytes(picture, true), jpeg_bytes(picture, false, 0, "", 300, 1),
          jpeg_bytes(picture, true, 0, "", 300, 1)};
}

TEST(ParseJpeg, RefusesAFileThatIsCutShortAnywhere) {
  for (const std::string& bytes : kinds_of_jpegs()) {
    (void)parse_image(bytes, "bird.jpg");
    for (std::size_t size = 4; size < bytes.size(); size += 37) {
      EXPECT_THAT(message_of([&] { (void)parse_image(bytes.substr(0, size), "bird.jpg"); }),
                  HasSubstr("bird.jpg: picture_damaged format=JPEG"))
          << size << " of " << bytes.size();
    }
  }
}

TEST(ParseJpeg, RefusesAnInterruptedCopyThatWasFilledUp) {
  for (const std::string& bytes : kinds_of_jpegs()) {
    for (std::size_t size = bytes.size() - 2; size > bytes.size() / 2; size -= 41) {
      const std::string filled = bytes.substr(0, size) + std::string(bytes.size() - size, '\0');
      EXPECT_THAT(message_of([&] { (void)parse_image(filled, "bird.jpg"); }),
                  HasSubstr("bird.jpg: picture_damaged format=JPEG"))
          << size << " of " << bytes.size();
    }
  }
}

TEST(ParseJpeg, RefusesAFileThatLacksAPieceBetweenRestartMarkers) {
  std::string bytes = kinds_of_jpegs()[2];
  const std::size_t second = bytes.find("\xFF\xD1");
  const std::size_t third = bytes.find("\xFF\xD2", second);
  ASSERT_NE(third, std::string::npos);
  bytes.erase(second, third - second);
  EXPECT_THAT(message_of([&] { (void)parse_image(bytes, "bird.jpg"); }),
              HasSubstr("picture_damaged format=JPEG"));
}

// Some cameras pad the coded data.
TEST(ParseJpeg, StrayBytesBeforeTheEndCostNoPixel) {
  for (std::string bytes : kinds_of_jpegs()) {
    bytes.insert(bytes.size() - 2, 3, '\0');
    EXPECT_EQ(parse_image(bytes, "bird.jpg").data, bytes);
  }
  const std::string good = kinds_of_jpegs().front();
  const std::string padded = good.substr(0, good.size() - 2) + "***\xFF\xD9";
  EXPECT_EQ(decode_image(padded, "bird.jpg").samples, decode_image(good, "bird.jpg").samples);
}

TEST(ParseJpeg, RefusesDamagedTables) {
  for (const std::string& good : kinds_of_jpegs()) {
    for (const char* table : {"\xFF\xC4", "\xFF\xDB"}) {  // Huffman, quantisation
      std::string bytes = good;
      const std::size_t at = bytes.find(table);
      ASSERT_NE(at, std::string::npos);
      bytes.replace(at + 4, 8, "\x7F\xFF\xFF\xFF\xFF\xFF\xFF\xFF");
      EXPECT_THAT(message_of([&] { (void)parse_image(bytes, "bird.jpg"); }),
                  HasSubstr("bird.jpg: picture_damaged format=JPEG"));
    }
  }
}

TEST(ParseJpeg, DoesNotBelieveAHeaderThatAnnouncesAHugePicture) {
  std::string bytes = jpeg_bytes(test_picture(70, 50, 3));
  const std::size_t frame = bytes.find("\xFF\xC0");
  bytes.replace(frame + 5, 4, "\xFF\xFF\xFF\xFF");
  EXPECT_THAT(message_of([&] { (void)parse_image(bytes, "x.jpg"); }),
              HasSubstr("picture_beyond_the_library"));
}

std::vector<std::vector<unsigned char>> rows_of(const Raster& r) {
  std::vector<std::vector<unsigned char>> rows;
  for (int y = 0; y < r.height_px; ++y) {
    auto& row = rows.emplace_back();
    for (int x = 0; x < r.width_px; ++x) {
      for (int c = 0; c < r.channels; ++c) {
        if (r.bits == 16) row.push_back(static_cast<unsigned char>(r.at(x, y, c) >> 8));
        row.push_back(static_cast<unsigned char>(r.at(x, y, c)));
      }
    }
  }
  return rows;
}

/// The IDAT chunks of a PNG put together: an independent, naive reader.
std::string idat_of(const std::string& png) {
  std::string rows;
  for (std::size_t at = 8; at < png.size();) {
    const std::size_t length = big_endian(png, at, 4);
    if (png.substr(at + 4, 4) == "IDAT") rows += png.substr(at + 8, length);
    at += 12 + length;
  }
  return rows;
}

TEST(ParsePng, PassesTheRowsOfPlainImagesOn) {
  for (const int channels : {1, 3}) {
    Raster picture = test_picture(70, 50, channels);
    picture.ppi_x = picture.ppi_y = 300;
    const std::string bytes = encode_png(picture);
    const CodedImage image = parse_image(bytes, "bird.png");
    EXPECT_EQ(image.data, idat_of(bytes));
    EXPECT_EQ(image.components, channels);
    EXPECT_FALSE(image.recoded);
    EXPECT_NEAR(image.ppi_x.value(), 300, 0.02);  // whole pixels per metre: 11811
  }
}

TEST(ParsePng, DecodesOtherKindsToTheSamePixels) {
  const Raster picture = test_picture(33, 21, 3, 16);
  const CodedImage image =
      parse_image(png_bytes({PNG_COLOR_TYPE_RGB, 16, true}, 33, 21, rows_of(picture)), "deep.png");
  EXPECT_TRUE(image.recoded);
  EXPECT_EQ(image.file, "deep.png");
  const Raster back =
      decode_image(png_bytes({PNG_COLOR_TYPE_RGB, 16, true}, 33, 21, rows_of(picture)), "deep.png");
  EXPECT_EQ(back.samples, picture.samples);
}

TEST(ParsePng, KeepsAPaletteAndTurnsItIntoColoursWhenDecoded) {
  const std::vector<png_color> palette = {{10, 20, 30}, {200, 100, 50}};
  const std::string bytes = png_bytes({PNG_COLOR_TYPE_PALETTE, 8, false}, 2, 1, {{0, 1}}, palette);
  const Raster raster = decode_image(bytes, "x");
  EXPECT_THAT(raster.samples, testing::ElementsAre(10, 20, 30, 200, 100, 50));
  const CodedImage image = parse_image(bytes, "x");
  EXPECT_FALSE(image.recoded);
  EXPECT_EQ(image.data, idat_of(bytes));
  EXPECT_EQ(image.palette, "\x0A\x14\x1E\xC8\x64\x32");
  EXPECT_EQ(image.bits, 8);
}

TEST(ParsePng, ExpandsOneBitGrey) {
  const Raster raster =
      decode_image(png_bytes({PNG_COLOR_TYPE_GRAY, 1, false}, 4, 1, {{0x50}}), "x");
  EXPECT_THAT(raster.samples, testing::ElementsAre(0, 255, 0, 255));
}

TEST(ParsePng, LaysTransparencyOverWhitePaper) {
  const Raster raster =
      decode_image(png_bytes({PNG_COLOR_TYPE_RGB_ALPHA, 8, false}, 3, 1,
                             {{100, 0, 200, 255, 100, 0, 200, 0, 100, 0, 200, 51}}),
                   "x");
  // 51/255 = 0.2 of the ink over white: 0.2 * 100 + 0.8 * 255 = 224, 204, 244.
  EXPECT_THAT(raster.samples, testing::ElementsAre(100, 0, 200, 255, 255, 255, 224, 204, 244));
}

TEST(ParsePng, RefusesAFileThatIsCutShortOrChangedAnywhere) {
  const std::string bytes = encode_png(test_picture(70, 50, 3));
  for (std::size_t size = 8; size < bytes.size(); size += 53) {
    EXPECT_THAT(message_of([&] { (void)parse_image(bytes.substr(0, size), "bird.png"); }),
                HasSubstr("bird.png: picture_damaged format=PNG"));
    std::string changed = bytes;
    changed[size] = static_cast<char>(changed[size] ^ 0x20);
    EXPECT_THAT(message_of([&] { (void)parse_image(changed, "bird.png"); }), HasSubstr("bird.png"));
  }
}

TEST(ParsePng, DoesNotUnpackMoreThanTheHeaderAnnounces) {
  // A plain file whose header says 1 pixel but whose rows hold many: the check sum is made right.
  std::string bytes = encode_png(test_picture(70, 50, 1));
  const std::string header =
      std::string("IHDR") + std::string("\0\0\0\1\0\0\0\1", 8) + bytes.substr(24, 5);
  // CRC-32 of the header by the bitwise definition (W3C PNG, annex D).
  std::uint32_t crc = 0xFFFFFFFFu;
  for (const char c : header) {
    crc ^= static_cast<unsigned char>(c);
    for (int i = 0; i < 8; ++i) crc = (crc >> 1) ^ ((crc & 1) != 0 ? 0xEDB88320u : 0u);
  }
  crc = ~crc;
  bytes.replace(12, 17, header);
  for (int i = 0; i < 4; ++i)
    bytes[29 + static_cast<std::size_t>(i)] = static_cast<char>(crc >> (24 - 8 * i));
  EXPECT_THAT(message_of([&] { (void)parse_image(bytes, "bomb.png"); }),
              HasSubstr("do not unpack"));
}

TEST(Orientation, TurnsPixelsAsTheStandardDraws) {
  // 2 x 1 pixels a b. Orientation 6: the first row is the right side, the first column the top,
  // so the picture is one column, a above b.
  Raster stored;
  stored.width_px = 2;
  stored.height_px = 1;
  stored.channels = 1;
  stored.samples = {1, 2};
  const Raster six = oriented(stored, 6);
  EXPECT_EQ(six.width_px, 1);
  EXPECT_THAT(six.samples, testing::ElementsAre(1, 2));
  EXPECT_THAT(oriented(stored, 8).samples, testing::ElementsAre(2, 1));
  EXPECT_THAT(oriented(stored, 3).samples, testing::ElementsAre(2, 1));
  EXPECT_THAT(oriented(stored, 2).samples, testing::ElementsAre(2, 1));
  EXPECT_THAT(oriented(stored, 4).samples, testing::ElementsAre(1, 2));
}

}  // namespace
}  // namespace versolay
