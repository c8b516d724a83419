#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <tiffio.h>
#include <zlib.h>

#include <array>
#include <functional>
#include <memory>

#include "artwork/tiff_file.h"
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
        const Raster read = decode_tiff(rewritten(encode_tiff(picture), options), 0, "a.tif");
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
    const CodedImage image = parse_tiff(encode_tiff(picture), 0, "a.tif");
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
  const Raster read = decode_tiff(bytes, 0, "old.tif");
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
  const Raster read = decode_tiff(bytes, 0, "palette.tif");
  EXPECT_THAT(read.samples, testing::ElementsAre(200, 0, 0, 0, 100, 0, 0, 0, 255));
}

TEST_F(TiffTest, RefusesWhatIsCutShort) {
  const std::string bytes = encode_tiff(test_picture(70, 50, 3));
  for (std::size_t size = 8; size < bytes.size(); size += 211) {
    EXPECT_THROW((void)decode_tiff(bytes.substr(0, size), 0, "a.tif"), Error) << size;
  }
}

TEST_F(TiffTest, OneOfSeveralPagesIsReadWhenItIsNamed) {
  if (run("tiffcp -h").status == 127) GTEST_SKIP() << "tiffcp is not installed";
  const Raster first = test_picture(70, 50, 3);
  const Raster second = test_picture(31, 44, 1, 16);
  write_file_atomically(scratch_ / "c.tif", encode_tiff(second), true);
  const std::string two = rewritten(encode_tiff(first), "'" + (scratch_ / "c.tif").string() + "'");
  // tiffcp takes the files in their order: c.tif comes before a.tif.
  EXPECT_EQ(tiff_pages(two, "two.tif"), 2);
  EXPECT_EQ(decode_tiff(two, 1, "two.tif").samples, second.samples);
  EXPECT_EQ(decode_tiff(two, 2, "two.tif").samples, first.samples);
  EXPECT_EQ(parse_tiff(two, 1, "two.tif").bits, 16);
  for (const auto& [page, words] :
       {std::pair{0, "page_not_named pages=2"}, {3, "picture_has_no_such_page pages=2 page=3"}}) {
    try {
      (void)decode_tiff(two, page, "two.tif");
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
  EXPECT_EQ(tiff_pages(both, "both.tif"), 1);
  EXPECT_EQ(decode_tiff(both, 0, "both.tif").samples, picture.samples);
}

}  // namespace
}  // namespace versolay
