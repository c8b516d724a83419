#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <zlib.h>

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
        const Raster read = decode_tiff(rewritten(encode_tiff(picture), options), "a.tif");
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
    const CodedImage image = parse_tiff(encode_tiff(picture), "a.tif");
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

TEST_F(TiffTest, RefusesWhatIsCutShortOrHasSeveralPages) {
  const std::string bytes = encode_tiff(test_picture(70, 50, 3));
  for (std::size_t size = 8; size < bytes.size(); size += 211) {
    EXPECT_THROW((void)decode_tiff(bytes.substr(0, size), "a.tif"), Error) << size;
  }
  if (run("tiffcp -h").status == 127) GTEST_SKIP() << "tiffcp is not installed";
  write_file_atomically(scratch_ / "c.tif", bytes, true);
  const std::string two = rewritten(bytes, "'" + (scratch_ / "c.tif").string() + "'");
  try {
    (void)decode_tiff(two, "two.tif");
    FAIL();
  } catch (const Error& e) {
    EXPECT_THAT(e.what(), HasSubstr("2 pages"));
  }
}

}  // namespace
}  // namespace versolay
