#include <future>

#include "support/scan_expect.h"

namespace versolay {
namespace {

using namespace scan_files;
using ::testing::DoubleNear;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::Optional;

struct Kind {
  const char* name;
  int channels;
  int bits;
  double tolerance;
  TiffOptions options;
};

std::ostream& operator<<(std::ostream& out, const Kind& kind) { return out << kind.name; }

class TiffOfAnyKind : public ::testing::TestWithParam<Kind> {};

TEST_P(TiffOfAnyKind, ComesOutAsItsLuma) {
  const Kind& kind = GetParam();
  const Folder folder;
  for (const auto& [width, height] : {std::pair{203, 131}, {61, 43}, {1, 1}, {1, 40}}) {
    const Picture p = draw_sheet(width, height, kind.channels, kind.bits);
    for (bool big_endian : {false, true}) {
      TiffOptions options = kind.options;
      options.big_endian = big_endian;
      write_tiff(folder / "scan.tif", {{p, options}});
      const Scan scan = load_page(folder / "scan.tif", 1);
      ASSERT_EQ(scan.grey.width, width);
      const bool inverted = options.photometric == PHOTOMETRIC_MINISWHITE;
      EXPECT_LE(largest_difference(scan.grey,
                                   [&](int x, int y) {
                                     const double grey = expected_grey(p, x, y);
                                     return inverted ? 255.0 - grey : grey;
                                   }),
                kind.tolerance)
          << width << " x " << height;
    }
  }
}

TiffOptions rgb(TiffOptions options = {}) {
  options.photometric = PHOTOMETRIC_RGB;
  return options;
}

constexpr int kWhiteIsZero = PHOTOMETRIC_MINISWHITE;

INSTANTIATE_TEST_SUITE_P(
    Kinds, TiffOfAnyKind,
    ::testing::Values(
        Kind{"grey1", 1, 1, 0.0, {}},
        Kind{"grey1_white_is_zero", 1, 1, 0.0, {.photometric = kWhiteIsZero}},
        Kind{"grey1_group3",
             1,
             1,
             0.0,
             {.photometric = kWhiteIsZero, .compression = COMPRESSION_CCITTFAX3}},
        Kind{"grey1_group4",
             1,
             1,
             0.0,
             {.photometric = kWhiteIsZero,
              .compression = COMPRESSION_CCITTFAX4,
              .rows_per_strip = 1000}},
        Kind{"grey1_huffman",
             1,
             1,
             0.0,
             {.photometric = kWhiteIsZero, .compression = COMPRESSION_CCITTRLE}},
        Kind{"grey1_tiles", 1, 1, 0.0, {.tile = 32}}, Kind{"grey2", 1, 2, 0.0, {}},
        Kind{"grey4_lzw", 1, 4, 0.0, {.compression = COMPRESSION_LZW}},
        Kind{"grey8", 1, 8, 0.0, {}}, Kind{"grey8_one_strip", 1, 8, 0.0, {.rows_per_strip = 1000}},
        Kind{"grey8_white_is_zero", 1, 8, 0.0, {.photometric = kWhiteIsZero}},
        Kind{"grey8_lzw", 1, 8, 0.0, {.compression = COMPRESSION_LZW}},
        Kind{"grey8_deflate", 1, 8, 0.0, {.compression = COMPRESSION_ADOBE_DEFLATE}},
        Kind{"grey8_packbits", 1, 8, 0.0, {.compression = COMPRESSION_PACKBITS}},
        Kind{"grey8_tiles", 1, 8, 0.0, {.compression = COMPRESSION_LZW, .tile = 64}},
        Kind{"grey8_bigtiff", 1, 8, 0.0, {.big_tiff = true}}, Kind{"grey16", 1, 16, 0.5, {}},
        Kind{"grey16_deflate_tiles",
             1,
             16,
             0.5,
             {.compression = COMPRESSION_ADOBE_DEFLATE, .tile = 48}},
        Kind{"rgb8", 3, 8, 1.0, rgb()},
        Kind{"rgb8_lzw", 3, 8, 1.0, rgb({.compression = COMPRESSION_LZW})},
        Kind{"rgb8_tiles", 3, 8, 1.0, rgb({.tile = 32})},
        Kind{"rgb8_planes", 3, 8, 1.0, rgb({.planar = true})},
        Kind{"rgb8_planes_deflate", 3, 8, 1.0,
             rgb({.compression = COMPRESSION_ADOBE_DEFLATE, .planar = true})},
        Kind{"rgb8_plane_tiles", 3, 8, 1.0, rgb({.tile = 32, .planar = true})},
        Kind{"rgb16", 3, 16, 1.6, rgb()}, Kind{"rgb16_planes", 3, 16, 1.6, rgb({.planar = true})},
        Kind{"rgba8", 4, 8, 1.6, rgb({.extra_sample = EXTRASAMPLE_UNASSALPHA})},
        Kind{"rgba8_planes", 4, 8, 1.6,
             rgb({.planar = true, .extra_sample = EXTRASAMPLE_UNASSALPHA})},
        Kind{"greyalpha8", 2, 8, 0.51, {.extra_sample = EXTRASAMPLE_UNASSALPHA}},
        // Quality 95 on a noisy picture: as much as libjpeg itself is off, seen on this picture.
        Kind{"grey8_jpeg", 1, 8, 12.0, {.compression = COMPRESSION_JPEG}}),
    [](const auto& test) { return std::string(test.param.name); });

TEST(Tiff, JpegCompressedColourComesOutAsItsLuma) {
  const Folder folder;
  const Picture p = draw_sheet(203, 131, 3, 8);
  for (int tile : {0, 64}) {
    write_tiff(
        folder / "scan.tif",
        {{p, {.photometric = PHOTOMETRIC_YCBCR, .compression = COMPRESSION_JPEG, .tile = tile}}});
    EXPECT_LE(largest_difference(load_page(folder / "scan.tif", 1).grey, p), 16.0);
  }
}

TEST(Tiff, PaletteEntriesComeOutAsTheirLuma) {
  const Folder folder;
  for (int bits : {1, 2, 4, 8}) {
    const Picture p = draw_sheet(61, 43, 1, bits);
    write_tiff(folder / "scan.tif", {{p, {.photometric = PHOTOMETRIC_PALETTE}}});
    EXPECT_LE(largest_difference(load_page(folder / "scan.tif", 1).grey,
                                 [&](int x, int y) { return expected_palette_grey(p, x, y); }),
              1.0)
        << bits;
  }
}

TEST(Tiff, PremultipliedAlphaShowsWhitePaper) {
  const Folder folder;
  // Half-covered black, fully covered mid grey, nothing at all.
  const Picture p{3, 1, 2, 8, {0, 128, 100, 255, 0, 0}};
  write_tiff(folder / "scan.tif", {{p, {.extra_sample = EXTRASAMPLE_ASSOCALPHA}}});
  EXPECT_THAT(load_page(folder / "scan.tif", 1).grey.pixels, ElementsAre(127, 100, 255));
}

TEST(Tiff, CmykIsRefusedInPlainWords) {
  const Folder folder;
  write_tiff(folder / "scan.tif",
             {{draw_sheet(16, 16, 4, 8), {.photometric = PHOTOMETRIC_SEPARATED}}});
  EXPECT_THAT(refusal_of(folder / "scan.tif"), HasSubstr("scan_in_cmyk"));
}

TEST(Tiff, ResolutionIsInInchesOrCentimetresOrNotAtAll) {
  const Folder folder;
  const Picture p = draw_sheet(8, 8, 1, 8);
  const auto dpi_of = [&](int unit, double value) {
    write_tiff(folder / "scan.tif",
               {{p, {.resolution_unit = unit, .x_resolution = value, .y_resolution = value}}});
    return load_page(folder / "scan.tif", 1).dpi_x;
  };
  EXPECT_THAT(dpi_of(RESUNIT_INCH, 600.0), Optional(600.0));
  EXPECT_THAT(dpi_of(RESUNIT_CENTIMETER, 236.22), Optional(DoubleNear(600.0, 0.01)));
  EXPECT_EQ(dpi_of(RESUNIT_NONE, 600.0), std::nullopt);
  EXPECT_EQ(dpi_of(RESUNIT_INCH, 1.0), std::nullopt);
  EXPECT_EQ(dpi_of(RESUNIT_INCH, 0.0), std::nullopt);
}

TEST(Tiff, MirroredOrientationsAreUndoneAndTurnsAreNot) {
  const Folder folder;
  const Picture p = draw_sheet(50, 20, 1, 8);
  for (int orientation = 1; orientation <= 8; ++orientation) {
    write_tiff(folder / "scan.tif", {{p, {.orientation = orientation}}});
    const bool mirrored =
        orientation == 2 || orientation == 4 || orientation == 5 || orientation == 7;
    EXPECT_EQ(largest_difference(load_page(folder / "scan.tif", 1).grey,
                                 [&](int x, int y) { return p.at(mirrored ? 49 - x : x, y); }),
              0.0)
        << orientation;
  }
}

class TiffOfThreePages : public ::testing::Test {
 protected:
  TiffOfThreePages() {
    write_tiff(path_, {{pages_[0], {}},
                       {draw_sheet(5, 4, 1, 8), {.subfile_type = FILETYPE_REDUCEDIMAGE}},
                       {pages_[1], {.compression = COMPRESSION_LZW}},
                       {pages_[2], rgb({.tile = 16})}});
  }
  Folder folder_;
  std::filesystem::path path_ = folder_ / "scans.tif";
  std::vector<Picture> pages_ = {draw_sheet(40, 30, 1, 8, 1), draw_sheet(33, 50, 1, 8, 2),
                                 draw_sheet(40, 30, 3, 8, 3)};
};

TEST_F(TiffOfThreePages, CountsPagesAndNoThumbnails) { EXPECT_EQ(count_pages(path_), 3); }

TEST_F(TiffOfThreePages, HandsThemOutInTheirOrderWithTheirNames) {
  std::vector<std::string> names;
  for_each_page(path_, {}, [&](Scan&& scan) {
    names.push_back(scan.name());
    EXPECT_LE(largest_difference(scan.grey, pages_[static_cast<std::size_t>(scan.page - 1)]), 1.0);
  });
  EXPECT_THAT(names, ElementsAre("scans.tif, page 1", "scans.tif, page 2", "scans.tif, page 3"));
}

TEST_F(TiffOfThreePages, GivesTheSamePixelsToSeveralThreads) {
  std::vector<std::future<Scan>> loads;
  for (int i = 0; i < 12; ++i) {
    loads.push_back(std::async(std::launch::async, [&, i] { return load_page(path_, i % 3 + 1); }));
  }
  for (std::size_t i = 0; i < loads.size(); ++i) {
    EXPECT_EQ(loads[i].get().grey.pixels,
              load_page(path_, static_cast<int>(i) % 3 + 1).grey.pixels);
  }
}

TEST_F(TiffOfThreePages, HasNoFourthPage) {
  EXPECT_THAT(refusal_of(path_, 4), HasSubstr("no_such_scan_page pages=3 page=4"));
  EXPECT_THAT(refusal_of(path_, 0), HasSubstr("no_such_scan_page pages=3 page=0"));
}

TEST_F(TiffOfThreePages, NamesThePageThatIsTooLarge) {
  EXPECT_THAT(refusal_of(path_, 2, {.max_pixels = 1500}), HasSubstr("scans.tif, page 2: "));
}

TEST(Tiff, PageInOneLargeStripIsReadToTheSamePixels) {
  const Folder folder;
  Picture p{2400, 2000, 1, 8, std::vector<std::uint16_t>(2400 * 2000)};
  Random random(5);  // noise does not shrink: 4.8 MB, above the 4 MiB from which strips are mapped
  for (auto& sample : p.samples) sample = static_cast<std::uint16_t>(random.below(256));
  for (int compression : {COMPRESSION_NONE, COMPRESSION_ADOBE_DEFLATE}) {
    write_tiff(folder / "scan.tif", {{p, {.compression = compression, .rows_per_strip = 2000}}});
    EXPECT_EQ(largest_difference(load_page(folder / "scan.tif", 1).grey, p), 0.0);
  }
}

}  // namespace
}  // namespace versolay
