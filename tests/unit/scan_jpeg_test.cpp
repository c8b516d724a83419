#include "support/scan_expect.h"

namespace versolay {
namespace {

using namespace scan_files;
using ::testing::DoubleNear;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Optional;

/// An Exif block of three or four entries, little- or big-endian, written out by hand.
/// Source  Exif 2.32 (CIPA DC-008-2019), 4.6.2.
std::string exif_block(bool little_endian, int orientation, unsigned dpi, unsigned unit) {
  std::string b = little_endian ? std::string("II\x2a\0", 4) : std::string("MM\0\x2a", 4);
  const auto number = [&](unsigned value, int length) {
    for (int i = 0; i < length; ++i) {
      const int shift = 8 * (little_endian ? i : length - 1 - i);
      b.push_back(static_cast<char>(value >> shift & 255u));
    }
  };
  const auto short_entry = [&](unsigned tag, unsigned value) {
    number(tag, 2), number(3, 2), number(1, 4), number(value, 2), number(0, 2);
  };
  const auto rational_entry = [&](unsigned tag, unsigned offset) {
    number(tag, 2), number(5, 2), number(1, 4), number(offset, 4);
  };
  constexpr unsigned kAfterEntries = 8 + 2 + 4 * 12 + 4;
  number(8, 4);
  number(4, 2);
  short_entry(0x0112, static_cast<unsigned>(orientation));
  rational_entry(0x011a, kAfterEntries);
  rational_entry(0x011b, kAfterEntries);
  short_entry(0x0128, unit);
  number(0, 4);
  number(dpi * 10, 4), number(10, 4);
  return b;
}

JpegOptions with_exif(std::string exif) {
  JpegOptions options;
  options.exif = std::move(exif);
  return options;
}

TEST(Jpeg, GreyComesOutWithinItsCompression) {
  const Folder folder;
  const Picture p = draw_sheet(203, 131, 1, 8);
  for (bool progressive : {false, true}) {
    write_jpeg(folder / "scan.jpg", p, {.quality = 100, .progressive = progressive});
    // Steps of 1 in every coefficient: two levels at most, seen on this picture.
    EXPECT_LE(largest_difference(load_page(folder / "scan.jpg", 1).grey, p), 2.0);
  }
}

TEST(Jpeg, ColourComesOutAsItsLuma) {
  const Folder folder;
  const Picture p = draw_sheet(203, 131, 3, 8);
  for (J_COLOR_SPACE stored : {JCS_YCbCr, JCS_RGB}) {
    for (bool half : {true, false}) {
      write_jpeg(folder / "scan.jpg", p,
                 {.in_colours = JCS_RGB,
                  .stored_colours = stored,
                  .quality = 100,
                  .chroma_at_half_size = half && stored == JCS_YCbCr});
      EXPECT_LE(largest_difference(load_page(folder / "scan.jpg", 1).grey, p), 2.5);
    }
  }
}

TEST(Jpeg, CmykIsRefusedInPlainWords) {
  const Folder folder;
  const Picture p = draw_sheet(40, 30, 4, 8);
  for (J_COLOR_SPACE stored : {JCS_CMYK, JCS_YCCK}) {
    write_jpeg(folder / "scan.jpg", p, {.in_colours = JCS_CMYK, .stored_colours = stored});
    EXPECT_THAT(refusal_of(folder / "scan.jpg"), HasSubstr("scan_in_cmyk"));
  }
}

TEST(Jpeg, OfMoreThan8BitsIsNotCalledDamaged) {
  const Folder folder;
  write_jpeg(folder / "scan.jpg", draw_sheet(16, 16, 1, 8), {});
  std::string bytes = bytes_of(folder / "scan.jpg");
  bytes[bytes.find("\xff\xc0") + 4] = 12;  // sample precision in the frame header
  write_bytes(folder / "scan.jpg", bytes);
  EXPECT_THAT(refusal_of(folder / "scan.jpg"), HasSubstr("scan_unsupported"));
}

TEST(Jpeg, ResolutionIsThatOfTheJfifHeader) {
  const Folder folder;
  const Picture p = draw_sheet(8, 8, 1, 8);
  write_jpeg(folder / "scan.jpg", p, {.density_unit = 1, .x_density = 600, .y_density = 600});
  EXPECT_THAT(load_page(folder / "scan.jpg", 1).dpi_x, Optional(600.0));
  write_jpeg(folder / "scan.jpg", p, {.density_unit = 2, .x_density = 118, .y_density = 118});
  EXPECT_THAT(load_page(folder / "scan.jpg", 1).dpi_y, Optional(DoubleNear(299.72, 1e-9)));
  write_jpeg(folder / "scan.jpg", p, {.density_unit = 0, .x_density = 600, .y_density = 600});
  EXPECT_EQ(load_page(folder / "scan.jpg", 1).dpi_x, std::nullopt);  // an aspect ratio
}

TEST(Jpeg, ResolutionOfExifStandsInForAMissingJfifOne) {
  const Folder folder;
  const Picture p = draw_sheet(8, 8, 1, 8);
  for (bool little_endian : {true, false}) {
    write_jpeg(folder / "scan.jpg", p, with_exif(exif_block(little_endian, 1, 400, 2)));
    EXPECT_THAT(load_page(folder / "scan.jpg", 1).dpi_x, Optional(DoubleNear(400.0, 1e-9)));
    write_jpeg(folder / "scan.jpg", p, with_exif(exif_block(little_endian, 1, 200, 3)));
    EXPECT_THAT(load_page(folder / "scan.jpg", 1).dpi_x, Optional(DoubleNear(508.0, 1e-9)));
    write_jpeg(folder / "scan.jpg", p, with_exif(exif_block(little_endian, 1, 72, 2)));
    EXPECT_EQ(load_page(folder / "scan.jpg", 1).dpi_x, std::nullopt);  // "unknown" in Exif
  }
}

TEST(Jpeg, MirroredOrientationsAreUndoneAndTurnsAreNot) {
  const Folder folder;
  const Picture p = draw_sheet(64, 32, 1, 8);
  write_jpeg(folder / "plain.jpg", p, {});
  const GreyImage plain = load_page(folder / "plain.jpg", 1).grey;
  for (int orientation = 1; orientation <= 8; ++orientation) {
    write_jpeg(folder / "scan.jpg", p, with_exif(exif_block(true, orientation, 300, 2)));
    const Scan scan = load_page(folder / "scan.jpg", 1);
    const bool mirrored =
        orientation == 2 || orientation == 4 || orientation == 5 || orientation == 7;
    EXPECT_EQ(largest_difference(scan.grey,
                                 [&](int x, int y) { return plain.at(mirrored ? 63 - x : x, y); }),
              0.0)
        << orientation;
    if (mirrored) {
      EXPECT_THAT(codes(scan.warnings), ElementsAre("scan_mirrored"));
    } else {
      EXPECT_THAT(scan.warnings, IsEmpty());
    }
  }
}

TEST(Jpeg, ExifThatIsNonsenseIsIgnored) {
  const Folder folder;
  const Picture p = draw_sheet(16, 16, 1, 8);
  write_jpeg(folder / "plain.jpg", p, {});
  const GreyImage plain = load_page(folder / "plain.jpg", 1).grey;
  const std::string sound = exif_block(true, 6, 300, 2);
  std::vector<std::string> blocks = {"", "I", "II", "not exif at all", std::string(64, '\xff')};
  for (std::size_t n = 0; n < sound.size(); ++n) blocks.push_back(sound.substr(0, n));
  std::string far_directory = sound;
  far_directory[7] = '\x7f';
  blocks.push_back(far_directory);
  for (const std::string& block : blocks) {
    write_jpeg(folder / "scan.jpg", p, with_exif(block));
    EXPECT_EQ(load_page(folder / "scan.jpg", 1).grey.pixels, plain.pixels);
  }
}

}  // namespace
}  // namespace versolay
