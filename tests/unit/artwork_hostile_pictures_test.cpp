// Pictures whose parts contradict each other. What the decoding library says holds, or the picture
// is refused; nothing may be believed that a second reader makes of the same bytes.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <tiffio.h>
#include <zlib.h>

#include "artwork/coded_image.h"
#include "artwork/raster.h"
#include "support/image_files.h"
#include "support/message_of.h"
#include "support/pdf_render.h"
#include "versolay/result.h"

namespace versolay {
namespace {

using namespace testing_support;
using testing::HasSubstr;

std::string big_endian_bytes(std::uint32_t value, int count) {
  std::string bytes;
  for (int i = count - 1; i >= 0; --i) bytes += static_cast<char>(value >> (8 * i) & 0xFF);
  return bytes;
}

// ITU-T T.81, B.1.1.3: RSTm, TEM and SOI have no length. Whoever gives them one skips what follows,
// here to the headers of another, smaller picture.
TEST(HostileJpeg, AMarkerWithoutLengthHidesNoSmallerPicture) {
  const Raster picture = test_picture(200, 150, 3);
  const std::string large = jpeg_bytes(picture);
  const std::string small = jpeg_bytes(test_picture(16, 16, 3));
  for (const char* marker : {"\xFF\x01", "\xFF\xD0", "\xFF\xD7"}) {
    const std::string length = big_endian_bytes(static_cast<std::uint32_t>(large.size()), 2);
    const std::string bytes =
        large.substr(0, 2) + marker + length + large.substr(2) + small.substr(2);
    try {
      const CodedImage image = parse_image(bytes, "x.jpg");
      EXPECT_EQ(image.width_px, 200);
      EXPECT_EQ(decode_image(bytes, "x.jpg").samples, decode_image(large, "x.jpg").samples);
    } catch (const Error& e) {
      EXPECT_THAT(e.what(), HasSubstr("picture_damaged format=JPEG"));
    }
  }
}

TEST(HostileJpeg, AnUnknownColourTransformAndStrayBytesBetweenHeadersCostNoPixel) {
  using namespace std::string_literals;
  const Raster picture = test_picture(40, 30, 3);
  const std::string plain = jpeg_bytes(picture);
  // Adobe's marker with a transform of 7.
  const std::string adobe = jpeg_bytes(picture, false, 14, "Adobe\0\x64\0\0\0\0\x07"s);
  EXPECT_EQ(decode_image(adobe, "x").width_px, 40);
  std::string stray = plain;
  stray.insert(stray.find("\xFF\xDB"), "\0\0\0"s);
  EXPECT_EQ(decode_image(stray, "x").samples, decode_image(plain, "x").samples);
}

std::string chunk(const std::string& type, const std::string& body) {
  const std::string sum_of = type + body;
  const auto sum =
      crc32(0, reinterpret_cast<const Bytef*>(sum_of.data()), static_cast<uInt>(sum_of.size()));
  return big_endian_bytes(static_cast<std::uint32_t>(body.size()), 4) + sum_of +
         big_endian_bytes(static_cast<std::uint32_t>(sum), 4);
}

std::string grey_png(int width, int height) {
  const std::vector<std::vector<unsigned char>> rows(
      static_cast<std::size_t>(height),
      std::vector<unsigned char>(static_cast<std::size_t>(width), 90));
  return png_bytes({PNG_COLOR_TYPE_GRAY, 8}, width, height, rows);
}

std::string before_the_end(std::string png, const std::string& what) {
  return png.insert(png.size() - 12, what);  // IEND is the last chunk
}

TEST(HostilePng, ASecondHeaderAfterThePixelsIsRefused) {
  const std::string header =
      big_endian_bytes(20, 4) + big_endian_bytes(20000, 4) + std::string("\x08\0\0\0\0", 5);
  const std::string bytes = before_the_end(grey_png(20, 10), chunk("IHDR", header));
  EXPECT_THAT(message_of([&] { (void)parse_image(bytes, "x.png"); }),
              HasSubstr("picture_damaged format=PNG"));
  EXPECT_THAT(message_of([&] { (void)decode_image(bytes, "x.png"); }),
              HasSubstr("picture_damaged format=PNG"));
}

TEST(HostilePng, AWrongSumOfWhatIsNoPixelIsNoDamage) {
  std::string text = chunk("tEXt", "Comment\0a heron");
  text.back() = static_cast<char>(text.back() ^ 1);
  EXPECT_EQ(parse_image(before_the_end(grey_png(20, 10), text), "x.png").width_px, 20);
}

TEST(HostilePng, AColourThatThePaletteDoesNotHaveIsRefused) {
  const std::vector<png_color> two = {{255, 255, 255}, {10, 20, 30}};
  const std::vector<std::vector<unsigned char>> good(4, std::vector<unsigned char>(6, 1));
  auto bad = good;
  bad[2][3] = 2;
  EXPECT_EQ(
      parse_image(png_bytes({PNG_COLOR_TYPE_PALETTE, 8}, 6, 4, good, two), "x").palette.size(), 6u);
  EXPECT_THAT(message_of([&] {
                (void)parse_image(png_bytes({PNG_COLOR_TYPE_PALETTE, 8}, 6, 4, bad, two), "x.png");
              }),
              HasSubstr("uses colour 3 of a palette of 2"));
}

// CIPA DC-008 (Exif), tag Orientation, in the chunk eXIf (W3C PNG, 3rd edition, 11.3.4.3).
TEST(HostilePng, TheOrientationIsThatOfItsExif) {
  const std::string exif = chunk("eXIf", exif_orientation_block(6, false).substr(6));
  const std::string plain = grey_png(20, 10);
  std::string turned = plain;
  turned.insert(8 + 25, exif);  // behind the header
  const CodedImage image = parse_image(turned, "x.png");
  EXPECT_EQ(image.orientation, 6);
  EXPECT_EQ(image.seen_width_px(), 10);
  EXPECT_EQ(decode_image(turned, "x.png").width_px, 10);
}

// 80 megapixels of nothing, in a few kilobytes: what needs unpacking is refused before memory is
// taken; what a PDF can hold as it is passes.
TEST(HostilePng, AVeryLargePictureWithTransparencyIsRefused) {
  const std::string header =
      big_endian_bytes(10000, 4) + big_endian_bytes(8000, 4) + std::string("\x08\x06\0\0\0", 5);
  const std::string bytes = std::string("\x89PNG\r\n\x1a\n") + chunk("IHDR", header) +
                            chunk("IDAT", std::string(40, '\0')) + chunk("IEND", "");
  EXPECT_THAT(message_of([&] { (void)parse_image(bytes, "x.png"); }),
              HasSubstr("picture_too_large_to_unpack"));
}

class HostileTiff : public testing::Test {
 protected:
  std::string written(const std::function<void(TIFF*)>& fill) {
    const std::string path = (scratch_ / "a.tif").string();
    TIFF* tiff = TIFFOpen(path.c_str(), "w");
    fill(tiff);
    TIFFClose(tiff);
    return read_file(path);
  }
  static void picture(TIFF* tiff, int samples, std::optional<int> photometric) {
    TIFFSetField(tiff, TIFFTAG_IMAGEWIDTH, 16);
    TIFFSetField(tiff, TIFFTAG_IMAGELENGTH, 4);
    TIFFSetField(tiff, TIFFTAG_BITSPERSAMPLE, 8);
    TIFFSetField(tiff, TIFFTAG_SAMPLESPERPIXEL, samples);
    TIFFSetField(tiff, TIFFTAG_PLANARCONFIG, PLANARCONFIG_CONTIG);
    TIFFSetField(tiff, TIFFTAG_ROWSPERSTRIP, 4);
    if (photometric) TIFFSetField(tiff, TIFFTAG_PHOTOMETRIC, *photometric);
  }
  static void rows(TIFF* tiff, int samples) {
    std::vector<unsigned char> row(static_cast<std::size_t>(16 * samples));
    for (std::size_t i = 0; i < row.size(); ++i) row[i] = static_cast<unsigned char>(7 * i);
    for (std::uint32_t y = 0; y < 4; ++y) TIFFWriteScanline(tiff, row.data(), y, 0);
  }

  ScratchFolder scratch_;
};

// A transparency that no sample is left for was read from behind the row (seen under the address
// sanitizer).
TEST_F(HostileTiff, ATransparencyWithoutASampleIsNotReadFromBehindTheRow) {
  for (const int samples : {1, 3}) {
    const std::string bytes = written([&](TIFF* tiff) {
      picture(tiff, samples, samples == 1 ? PHOTOMETRIC_MINISBLACK : PHOTOMETRIC_RGB);
      const std::uint16_t alpha = EXTRASAMPLE_UNASSALPHA;
      TIFFSetField(tiff, TIFFTAG_EXTRASAMPLES, 1, &alpha);
      rows(tiff, samples);
    });
    try {
      EXPECT_EQ(decode_image(bytes, "a.tif").width_px, 16);
    } catch (const Error& e) {
      EXPECT_THAT(e.what(), HasSubstr("a.tif"));
    }
  }
}

TEST_F(HostileTiff, WithoutAKindOfColoursThreeSamplesAreColours) {
  const std::string bytes = written([&](TIFF* tiff) {
    picture(tiff, 3, std::nullopt);
    rows(tiff, 3);
  });
  const Raster raster = decode_image(bytes, "a.tif");
  ASSERT_EQ(raster.channels, 3);
  EXPECT_EQ(raster.at(1, 0, 0), 21);
  EXPECT_EQ(raster.at(1, 0, 2), 35);
}

// libtiff goes to picture n by way of all before it: asked for each in turn, 1,000 took 8 s.
TEST_F(HostileTiff, ManyPicturesAreCountedInOneWalkAndTooManyRefused) {
  const auto pages = [&](int count) {
    return written([&](TIFF* tiff) {
      for (int i = 0; i < count; ++i) {
        picture(tiff, 1, PHOTOMETRIC_MINISBLACK);
        rows(tiff, 1);
        TIFFWriteDirectory(tiff);
      }
    });
  };
  EXPECT_EQ(pages_in(pages(300), "a.tif"), 300);
  EXPECT_THAT(message_of([&] { (void)pages_in(pages(1001), "a.tif"); }),
              HasSubstr("too_many_pictures most=1000"));
}

}  // namespace
}  // namespace versolay
