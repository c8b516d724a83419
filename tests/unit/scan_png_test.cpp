#include "support/scan_expect.h"

namespace versolay {
namespace {

using namespace scan_files;
using ::testing::DoubleNear;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Optional;

struct Kind {
  const char* name;
  int colour_type;
  int channels;
  int bits;
  double tolerance;  // levels: 1 for weights of 8 bits, more where 16 bits or alpha round as well
};

class PngOfAnyKind : public ::testing::TestWithParam<std::tuple<Kind, bool>> {};

TEST_P(PngOfAnyKind, ComesOutAsItsLuma) {
  const auto& [kind, interlaced] = GetParam();
  const Folder folder;
  // Sizes that fill no byte and no interlacing pass evenly, down to passes without a pixel.
  for (const auto& [width, height] : {std::pair{61, 43}, {8, 8}, {3, 2}, {1, 1}, {1, 9}}) {
    const Picture p = draw_sheet(width, height, kind.channels, kind.bits);
    write_png(folder / "scan.png", p, {.colour_type = kind.colour_type, .interlaced = interlaced});
    const Scan scan = load_page(folder / "scan.png", 1);
    EXPECT_LE(largest_difference(scan.grey, p), kind.tolerance) << width << " x " << height;
  }
}

INSTANTIATE_TEST_SUITE_P(
    Kinds, PngOfAnyKind,
    ::testing::Combine(::testing::Values(Kind{"grey1", PNG_COLOR_TYPE_GRAY, 1, 1, 0.5},
                                         Kind{"grey2", PNG_COLOR_TYPE_GRAY, 1, 2, 0.5},
                                         Kind{"grey4", PNG_COLOR_TYPE_GRAY, 1, 4, 0.5},
                                         Kind{"grey8", PNG_COLOR_TYPE_GRAY, 1, 8, 0.0},
                                         Kind{"grey16", PNG_COLOR_TYPE_GRAY, 1, 16, 0.5},
                                         Kind{"greyalpha8", PNG_COLOR_TYPE_GRAY_ALPHA, 2, 8, 0.51},
                                         Kind{"greyalpha16", PNG_COLOR_TYPE_GRAY_ALPHA, 2, 16, 1.6},
                                         Kind{"rgb8", PNG_COLOR_TYPE_RGB, 3, 8, 1.0},
                                         Kind{"rgb16", PNG_COLOR_TYPE_RGB, 3, 16, 1.6},
                                         Kind{"rgba8", PNG_COLOR_TYPE_RGB_ALPHA, 4, 8, 1.6},
                                         Kind{"rgba16", PNG_COLOR_TYPE_RGB_ALPHA, 4, 16, 2.1}),
                       ::testing::Bool()),
    [](const auto& test) {
      return std::string(std::get<0>(test.param).name) +
             (std::get<1>(test.param) ? "_interlaced" : "");
    });

TEST(Png, PaletteEntriesComeOutAsTheirLuma) {
  const Folder folder;
  for (int bits : {1, 2, 4, 8}) {
    for (bool interlaced : {false, true}) {
      const Picture p = draw_sheet(61, 43, 1, bits);
      write_png(folder / "scan.png", p,
                {.colour_type = PNG_COLOR_TYPE_PALETTE, .interlaced = interlaced});
      const Scan scan = load_page(folder / "scan.png", 1);
      EXPECT_LE(largest_difference(scan.grey,
                                   [&](int x, int y) { return expected_palette_grey(p, x, y); }),
                1.0)
          << bits << " bits";
    }
  }
}

TEST(Png, TransparentPaletteEntriesShowWhitePaper) {
  const Folder folder;
  const Picture p{2, 1, 1, 8, {0, 1}};
  write_png(folder / "scan.png", p,
            {.colour_type = PNG_COLOR_TYPE_PALETTE, .more = [](png_structp png, png_infop info) {
               const png_byte alphas[] = {0, 255};
               png_set_tRNS(png, info, alphas, 2, nullptr);
             }});
  const Scan scan = load_page(folder / "scan.png", 1);
  EXPECT_EQ(scan.grey.at(0, 0), 255);
  EXPECT_NEAR(scan.grey.at(1, 0), expected_palette_grey(p, 1, 0), 1.0);
}

TEST(Png, TheOneTransparentGreyShowsWhitePaper) {
  const Folder folder;
  const Picture p{3, 1, 1, 8, {10, 77, 200}};
  write_png(folder / "scan.png", p, {.more = [](png_structp png, png_infop info) {
              png_color_16 transparent{};
              transparent.gray = 77;
              png_set_tRNS(png, info, nullptr, 0, &transparent);
            }});
  EXPECT_THAT(load_page(folder / "scan.png", 1).grey.pixels, ElementsAre(10, 255, 200));
}

TEST(Png, PixelOutsideThePaletteIsDamage) {
  const Folder folder;
  const Picture p{4, 1, 1, 4, {0, 1, 9, 2}};
  PngOptions options{.colour_type = PNG_COLOR_TYPE_PALETTE};
  options.more = [](png_structp png, png_infop info) {
    const std::vector<png_color> palette = test_palette(4);
    png_set_PLTE(png, info, palette.data(), 3);
    png_set_check_for_invalid_index(png, -1);
  };
  write_png(folder / "scan.png", p, options);
  EXPECT_THAT(refusal_of(folder / "scan.png"), HasSubstr("exceeding num_palette"));
}

TEST(Png, ResolutionIsThatOfThePhysChunk) {
  const Folder folder;
  const Picture p = draw_sheet(8, 8, 1, 8);
  // 23622 pixels per metre is how 600 dpi is written: 600 / 0.0254 = 23622.05.
  write_png(folder / "scan.png", p, {.x_per_metre = 23622, .y_per_metre = 11811});
  const Scan scan = load_page(folder / "scan.png", 1);
  EXPECT_THAT(scan.dpi_x, Optional(DoubleNear(600.0, 0.002)));
  EXPECT_THAT(scan.dpi_y, Optional(DoubleNear(300.0, 0.002)));
  EXPECT_THAT(codes(scan.warnings), ElementsAre("scan_resolution_uneven"));
}

TEST(Png, ResolutionThatIsMissingOrAbsurdIsNotThere) {
  const Folder folder;
  const Picture p = draw_sheet(8, 8, 1, 8);
  for (png_uint_32 per_metre : {0u, 1u, 1000u, 1000000u}) {  // none, 0.03, 25 and 25400 dpi
    write_png(folder / "scan.png", p, {.x_per_metre = per_metre, .y_per_metre = per_metre});
    const Scan scan = load_page(folder / "scan.png", 1);
    EXPECT_EQ(scan.dpi_x, std::nullopt) << per_metre;
    EXPECT_EQ(scan.dpi_y, std::nullopt) << per_metre;
    EXPECT_THAT(scan.warnings, IsEmpty());
  }
}

TEST(Png, PureBlackAndWhiteIsReadWithAWarning) {
  const Folder folder;
  write_png(folder / "scan.png", draw_sheet(9, 9, 1, 1), {});
  const Scan scan = load_page(folder / "scan.png", 1);
  EXPECT_THAT(codes(scan.warnings), ElementsAre("scan_black_and_white"));
  EXPECT_EQ(scan.name(), "scan.png");
  EXPECT_EQ(scan.file, (folder / "scan.png").string());
}

}  // namespace
}  // namespace versolay
