#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <tiffio.h>
#include <zlib.h>

#include <algorithm>
#include <array>
#include <functional>
#include <memory>
#include <optional>

#include "artwork/raster.h"
#include "core/files.h"
#include "support/image_files.h"
#include "support/pdf_render.h"
#include "versolay/result.h"

namespace versolay {
namespace {

using namespace testing_support;
using testing::HasSubstr;

class TiffTest : public testing::Test {
 protected:
  /// The same pixels written by the tools of libtiff: another writer than ours.
  std::string rewritten(const std::string& bytes, const std::string& options) {
    write_file_atomically(scratch_ / "a.tif", bytes, true);
    const auto result = run("tiffcp " + options + " '" + (scratch_ / "a.tif").string() + "' '" +
                            (scratch_ / "b.tif").string() + "'");
    if (result.status != 0) throw std::runtime_error(result.output);
    return read_file(scratch_ / "b.tif");
  }

  ScratchFolder scratch_;
};

TEST_F(TiffTest, KeepsPixelsResolutionAndProfileOfEveryCompression) {
  for (const int channels : {1, 3}) {
    for (const int bits : {8, 16}) {
      Raster picture = test_picture(70, 50, channels, bits);
      picture.ppi_x = picture.ppi_y = 300;
      picture.icc_profile = tiny_icc_profile(channels == 1 ? "GRAY" : "RGB ");
      for (const char* options : {"-c none -r 7", "-c lzw", "-c zip -B", "-c none -L", "-8"}) {
        if (run("tiffcp -h").status == 127) GTEST_SKIP() << "tiffcp is not installed";
        SCOPED_TRACE(options);
        const Raster read = decode_image(rewritten(encode_tiff(picture), options), "a.tif");
        EXPECT_EQ(read.samples, picture.samples);
        EXPECT_EQ(read.bits, bits);
        EXPECT_EQ(read.icc_profile, picture.icc_profile);
        EXPECT_DOUBLE_EQ(read.ppi_x.value(), 300);
      }
    }
  }
}

TEST_F(TiffTest, PacksTheSamplesForAPdfUnchanged) {
  for (const int channels : {1, 3, 4}) {
    const Raster picture = test_picture(33, 21, channels, 8);
    const CodedImage image = parse_image(encode_tiff(picture), "a.tif");
    EXPECT_EQ(image.components, channels);
    const std::size_t row = 1 + std::size_t{33} * static_cast<std::size_t>(channels);
    std::string rows(row * 21, '\0');
    uLongf size = rows.size();
    ASSERT_EQ(uncompress(reinterpret_cast<Bytef*>(rows.data()), &size,
                         reinterpret_cast<const Bytef*>(image.data.data()), image.data.size()),
              Z_OK);
    ASSERT_EQ(size, rows.size());
    std::string above(row, '\0');  // undo the filter Up, as the PNG specification writes it
    for (int y = 0; y < 21; ++y) {
      std::string line = rows.substr(row * static_cast<std::size_t>(y), row);
      ASSERT_EQ(line[0], 2);
      for (std::size_t i = 1; i < row; ++i) line[i] = static_cast<char>(line[i] + above[i]);
      for (int x = 0; x < 33; ++x) {
        for (int c = 0; c < channels; ++c) {
          const auto i = static_cast<std::size_t>(1 + x * channels + c);
          ASSERT_EQ(static_cast<unsigned char>(line[i]), picture.at(x, y, c));
        }
      }
      above = line;
    }
  }
}

/// What a program writes that puts the directory together by hand.
std::string tiff_of(const std::function<void(TIFF*)>& write) {
  const ScratchFolder folder;
  const std::filesystem::path path = folder.path() / "w.tif";
  {
    const std::unique_ptr<TIFF, void (*)(TIFF*)> tiff(TIFFOpen(path.c_str(), "w"), TIFFClose);
    TIFFSetField(tiff.get(), TIFFTAG_IMAGELENGTH, 1);
    TIFFSetField(tiff.get(), TIFFTAG_BITSPERSAMPLE, 8);
    TIFFSetField(tiff.get(), TIFFTAG_SAMPLESPERPIXEL, 1);
    TIFFSetField(tiff.get(), TIFFTAG_ROWSPERSTRIP, 1);
    write(tiff.get());
  }
  return read_file(path);
}

/// The samples in tiles of 48 px, by libtiff; with `alpha`, the last channel is transparency.
std::string tiled_tiff(const Raster& picture, bool planar, std::optional<std::uint16_t> alpha) {
  constexpr int kSide = 48;
  const int colours = picture.channels - (alpha ? 1 : 0);
  const int stride = planar ? 1 : picture.channels;
  return tiff_of([&](TIFF* tiff) {
    TIFFSetField(tiff, TIFFTAG_IMAGEWIDTH, picture.width_px);
    TIFFSetField(tiff, TIFFTAG_IMAGELENGTH, picture.height_px);
    TIFFSetField(tiff, TIFFTAG_BITSPERSAMPLE, picture.bits);
    TIFFSetField(tiff, TIFFTAG_SAMPLESPERPIXEL, picture.channels);
    TIFFSetField(tiff, TIFFTAG_PHOTOMETRIC,
                 colours == 1   ? PHOTOMETRIC_MINISBLACK
                 : colours == 3 ? PHOTOMETRIC_RGB
                                : PHOTOMETRIC_SEPARATED);
    if (alpha) TIFFSetField(tiff, TIFFTAG_EXTRASAMPLES, 1, &*alpha);
    TIFFSetField(tiff, TIFFTAG_PLANARCONFIG, planar ? PLANARCONFIG_SEPARATE : PLANARCONFIG_CONTIG);
    TIFFSetField(tiff, TIFFTAG_TILEWIDTH, kSide);
    TIFFSetField(tiff, TIFFTAG_TILELENGTH, kSide);
    const auto part = [&](int x0, int y0, int plane) {
      std::vector<std::uint16_t> wide(static_cast<std::size_t>(kSide * kSide * stride), 7);
      for (int y = y0; y < std::min(y0 + kSide, picture.height_px); ++y) {
        for (int x = x0; x < std::min(x0 + kSide, picture.width_px); ++x) {
          for (int c = 0; c < stride; ++c) {
            const int place = ((y - y0) * kSide + x - x0) * stride + c;
            wide[static_cast<std::size_t>(place)] = picture.at(x, y, planar ? plane : c);
          }
        }
      }
      std::vector<std::uint8_t> narrow(wide.begin(), wide.end());
      void* samples = picture.bits == 8 ? static_cast<void*>(narrow.data()) : wide.data();
      TIFFWriteTile(tiff, samples, static_cast<std::uint32_t>(x0), static_cast<std::uint32_t>(y0),
                    0, static_cast<std::uint16_t>(plane));
    };
    for (int plane = 0; plane < (planar ? picture.channels : 1); ++plane) {
      for (int y = 0; y < picture.height_px; y += kSide) {
        for (int x = 0; x < picture.width_px; x += kSide) part(x, y, plane);
      }
    }
  });
}

// The last tile of a row is cut off by the edge of the picture. libtiff's own conversion to RGB
// loses its place there for 16-bit grey and for grey with transparency.
TEST_F(TiffTest, ReadsTilesThatReachBeyondThePicture) {
  for (const int bits : {8, 16}) {
    for (const int channels : {1, 3, 4}) {
      const Raster picture = test_picture(101, 70, channels, bits);
      for (const bool planar : {false, true}) {
        const Raster read = decode_image(tiled_tiff(picture, planar, std::nullopt), "tiles.tif");
        EXPECT_EQ(read.channels, channels);
        EXPECT_EQ(read.bits, bits);
        EXPECT_EQ(read.samples, picture.samples) << channels << " of " << bits << " bits";
      }
    }
  }
}

TEST_F(TiffTest, LaysTransparentTilesOverWhitePaper) {
  for (const int bits : {8, 16}) {
    for (const int colours : {1, 3}) {
      const Raster picture = test_picture(101, 70, colours + 1, bits);
      for (const bool planar : {false, true}) {
        const Raster read =
            decode_image(tiled_tiff(picture, planar, EXTRASAMPLE_UNASSALPHA), "tiles.tif");
        ASSERT_EQ(read.channels, colours);
        for (int y = 0; y < 70; ++y) {
          for (int x = 0; x < 101; ++x) {
            const double opacity = picture.at(x, y, colours) / double(picture.largest());
            for (int c = 0; c < colours; ++c) {
              const double seen = opacity * picture.at(x, y, c) + (1 - opacity) * picture.largest();
              ASSERT_NEAR(read.at(x, y, c), seen, 0.5001) << x << ", " << y;
            }
          }
        }
      }
    }
  }
}

// Writers before TIFF 5.0's final text packed LZW codes from the low bit on. libtiff reads them and
// warns; no pixel is invented. The strip is packed by hand: clear, six literals, end, of 9 bits.
// Source  libtiff, tif_lzw.c ("Old-style LZW codes"); the layout of the codes from memory.
TEST_F(TiffTest, ReadsLzwCodesOfOldWriters) {
  const std::vector<unsigned> pixels = {10, 60, 110, 160, 210, 250};
  std::vector<unsigned> codes = {256};
  codes.insert(codes.end(), pixels.begin(), pixels.end());
  codes.push_back(257);
  std::string packed((codes.size() * 9 + 7) / 8, '\0');
  for (std::size_t bit = 0; bit < codes.size() * 9; ++bit) {
    if ((codes[bit / 9] >> (bit % 9) & 1U) != 0) {
      packed[bit / 8] = static_cast<char>(packed[bit / 8] | 1 << (bit % 8));
    }
  }
  const std::string bytes = tiff_of([&](TIFF* tiff) {
    TIFFSetField(tiff, TIFFTAG_IMAGEWIDTH, 6);
    TIFFSetField(tiff, TIFFTAG_PHOTOMETRIC, PHOTOMETRIC_MINISBLACK);
    TIFFSetField(tiff, TIFFTAG_COMPRESSION, COMPRESSION_LZW);
    TIFFWriteRawStrip(tiff, 0, packed.data(), static_cast<tmsize_t>(packed.size()));
  });
  const Raster read = decode_image(bytes, "old.tif");
  EXPECT_THAT(read.samples, testing::ElementsAre(10, 60, 110, 160, 210, 250));
}

// The standard wants palettes of 16 bits; some programs write 8 all the same.
TEST_F(TiffTest, ReadsPalettesOfEightBits) {
  std::array<std::uint16_t, 256> red{};
  std::array<std::uint16_t, 256> green{};
  std::array<std::uint16_t, 256> blue{};
  red[1] = 200;
  green[2] = 100;
  blue[3] = 255;
  const std::string bytes = tiff_of([&](TIFF* tiff) {
    TIFFSetField(tiff, TIFFTAG_IMAGEWIDTH, 3);
    TIFFSetField(tiff, TIFFTAG_PHOTOMETRIC, PHOTOMETRIC_PALETTE);
    TIFFSetField(tiff, TIFFTAG_COLORMAP, red.data(), green.data(), blue.data());
    std::array<std::uint8_t, 3> row = {1, 2, 3};
    TIFFWriteEncodedStrip(tiff, 0, row.data(), row.size());
  });
  const Raster read = decode_image(bytes, "palette.tif");
  EXPECT_THAT(read.samples, testing::ElementsAre(200, 0, 0, 0, 100, 0, 0, 0, 255));
}

TEST_F(TiffTest, RefusesWhatIsCutShort) {
  const std::string bytes = encode_tiff(test_picture(70, 50, 3));
  for (std::size_t size = 8; size < bytes.size(); size += 211) {
    EXPECT_THROW((void)decode_image(bytes.substr(0, size), "a.tif"), Error) << size;
  }
}

TEST_F(TiffTest, OneOfSeveralPagesIsReadWhenItIsNamed) {
  if (run("tiffcp -h").status == 127) GTEST_SKIP() << "tiffcp is not installed";
  const Raster first = test_picture(70, 50, 3);
  const Raster second = test_picture(31, 44, 1, 16);
  write_file_atomically(scratch_ / "c.tif", encode_tiff(second), true);
  const std::string two = rewritten(encode_tiff(first), "'" + (scratch_ / "c.tif").string() + "'");
  // tiffcp takes the files in their order: c.tif comes before a.tif.
  EXPECT_EQ(pages_in(two, "two.tif"), 2);
  EXPECT_EQ(decode_image(two, "two.tif", 1).samples, second.samples);
  EXPECT_EQ(decode_image(two, "two.tif", 2).samples, first.samples);
  EXPECT_EQ(parse_image(two, "two.tif", 1).bits, 16);
  for (const auto& [page, words] :
       {std::pair{0, "page_not_named pages=2"}, {3, "picture_has_no_such_page pages=2 page=3"}}) {
    try {
      (void)decode_image(two, "two.tif", page);
      FAIL() << page;
    } catch (const Error& e) {
      EXPECT_THAT(e.what(), HasSubstr(words));
    }
  }
}

// TIFF 6.0, section 8, NewSubfileType: bit 0 a reduced-resolution version of another image.
TEST_F(TiffTest, APreviewBesideThePictureIsNoPage) {
  if (run("tiffset").status == 127) GTEST_SKIP() << "tiffset is not installed";
  const Raster picture = test_picture(70, 50, 3);
  write_file_atomically(scratch_ / "c.tif", encode_tiff(test_picture(20, 10, 3)), true);
  const std::string preview = (scratch_ / "c.tif").string();
  ASSERT_EQ(run("tiffset -s 254 1 '" + preview + "'").status, 0);
  const std::string both = rewritten(encode_tiff(picture), "'" + preview + "'");
  EXPECT_EQ(pages_in(both, "both.tif"), 1);
  EXPECT_EQ(decode_image(both, "both.tif").samples, picture.samples);
}

}  // namespace
}  // namespace versolay
