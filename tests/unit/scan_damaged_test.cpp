// Files that are not what they claim: refused in plain words, never read as if they were whole.
#include <zlib.h>

#include <algorithm>
#include <atomic>
#include <cstdlib>
#include <new>

#include "support/scan_expect.h"

// Every allocation of this program passes here, so that a test can see how large the largest was.
namespace {
std::atomic<std::size_t> g_largest_allocation{0};
}
[[gnu::noinline]] void* operator new(std::size_t size) {
  if (size > g_largest_allocation) g_largest_allocation = size;
  if (void* p = std::malloc(size == 0 ? 1 : size)) return p;
  throw std::bad_alloc();
}
[[gnu::noinline]] void operator delete(void* p) noexcept { std::free(p); }
[[gnu::noinline]] void operator delete(void* p, std::size_t) noexcept { std::free(p); }

namespace versolay {
namespace {

using namespace scan_files;
using ::testing::AllOf;
using ::testing::AnyOf;
using ::testing::HasSubstr;

const std::filesystem::path kCorpus = std::filesystem::path(VERSOLAY_TEST_DATA) / "scan";

std::vector<std::filesystem::path> corpus() {
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(kCorpus)) {
    const std::string kind = entry.path().extension().string();
    if (kind == ".png" || kind == ".jpg" || kind == ".tif") files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());
  return files;
}

bool is_cmyk(const std::filesystem::path& path) { return path.stem() == "cmyk"; }

TEST(Corpus, IsReadButForCmyk) {
  ASSERT_GE(corpus().size(), 18u);
  for (const auto& path : corpus()) {
    if (is_cmyk(path)) {
      EXPECT_THAT(refusal_of(path), HasSubstr("scan_in_cmyk"));
      continue;
    }
    for_each_page(path, {}, [&](Scan&& scan) {
      EXPECT_EQ(scan.grey.width * scan.grey.height, 41 * 30) << scan.name();
      EXPECT_THAT(scan.dpi_x, ::testing::Optional(::testing::DoubleNear(300.0, 0.3)));
    });
  }
}

void expect_cut_file_is_refused(const std::filesystem::path& path) {
  const Folder folder;
  const std::string whole = bytes_of(path);
  const auto cut = folder / "cut.scan";
  for (std::size_t tenths = 1; tenths < 10; ++tenths) {
    const std::size_t length = whole.size() * tenths / 10;
    write_bytes(cut, std::string_view(whole).substr(0, length));
    EXPECT_THAT(refusal_of(cut), AllOf(HasSubstr("cut.scan"), kDamaged))
        << path.filename() << ", " << length << " of " << whole.size() << " bytes";
  }
}

TEST(CutFile, OfTheCorpusIsIncompleteAtAnyLength) {
  for (const auto& path : corpus()) {
    if (!is_cmyk(path)) expect_cut_file_is_refused(path);
  }
}

TEST(CutFile, WithoutItsLastByteIsIncompleteUnlessThatBytePadded) {
  const Folder folder;
  const auto cut = folder / "cut.scan";
  for (const auto& path : corpus()) {
    if (is_cmyk(path)) continue;
    const std::string whole = bytes_of(path);
    write_bytes(cut, std::string_view(whole).substr(0, whole.size() - 1));
    if (path.extension() != ".tif") {
      EXPECT_THAT(refusal_of(cut), kDamaged) << path;
      continue;
    }
    try {  // a TIFF may end with a tag that is about no pixel
      EXPECT_EQ(load_page(cut, 1).grey.pixels, load_page(path, 1).grey.pixels) << path;
    } catch (const Error&) {
    }
  }
}

TEST(CutFile, OfARealisticSizeIsIncompleteAtAnyLength) {
  const Folder folder;
  const Picture grey = draw_sheet(827, 1169, 1, 8);
  const Picture rgb = draw_sheet(827, 1169, 3, 8);
  write_png(folder / "grey.png", grey, {});
  write_png(folder / "rgb.png", rgb, {.colour_type = PNG_COLOR_TYPE_RGB, .interlaced = true});
  write_jpeg(folder / "grey.jpg", grey, {});
  write_jpeg(folder / "rgb.jpg", rgb,
             {.in_colours = JCS_RGB, .stored_colours = JCS_YCbCr, .progressive = true});
  write_tiff(folder / "grey.tif", {{grey, {.compression = COMPRESSION_LZW}}});
  for (const char* name : {"grey.png", "rgb.png", "grey.jpg", "rgb.jpg", "grey.tif"}) {
    expect_cut_file_is_refused(folder / name);
  }
}

/// A TIFF with its directory in front and one strip, whose stated length may be a lie.
/// Source  TIFF 6.0 (Adobe, 1992), section 2.
std::string tiff_with_directory_first(int width, int height, int bits, int compression,
                                      int photometric, std::string_view strip,
                                      std::size_t stated_length) {
  std::string b("II\x2a\0\x08\0\0\0", 8);
  const auto number = [&](std::size_t value, int length) {
    for (int i = 0; i < length; ++i) b.push_back(static_cast<char>(value >> (8 * i) & 255u));
  };
  const auto entry = [&](unsigned tag, std::size_t value) {
    number(tag, 2), number(4, 2), number(1, 4), number(value, 4);
  };
  constexpr int kEntries = 9;
  number(kEntries, 2);
  entry(TIFFTAG_IMAGEWIDTH, static_cast<std::size_t>(width));
  entry(TIFFTAG_IMAGELENGTH, static_cast<std::size_t>(height));
  entry(TIFFTAG_BITSPERSAMPLE, static_cast<std::size_t>(bits));
  entry(TIFFTAG_COMPRESSION, static_cast<std::size_t>(compression));
  entry(TIFFTAG_PHOTOMETRIC, static_cast<std::size_t>(photometric));
  entry(TIFFTAG_STRIPOFFSETS, 8 + 2 + 12 * kEntries + 4);
  entry(TIFFTAG_SAMPLESPERPIXEL, 1);
  entry(TIFFTAG_ROWSPERSTRIP, static_cast<std::size_t>(height));
  entry(TIFFTAG_STRIPBYTECOUNTS, stated_length);
  number(0, 4);
  return b.append(strip);
}

std::string only_strip_of(const std::filesystem::path& path) {
  TIFF* tiff = TIFFOpen(path.c_str(), "rc");  // c: strips as they are in the file
  std::string strip(TIFFGetStrileByteCount(tiff, 0), '\0');
  TIFFReadRawStrip(tiff, 0, strip.data(), static_cast<tmsize_t>(strip.size()));
  TIFFClose(tiff);
  return strip;
}

class StripThatEndsEarly : public ::testing::TestWithParam<std::pair<int, int>> {};

TEST_P(StripThatEndsEarly, IsDamageWhateverTheDirectorySays) {
  const auto& [compression, bits] = GetParam();
  const int photometric = bits == 1 ? PHOTOMETRIC_MINISWHITE : PHOTOMETRIC_MINISBLACK;
  const Folder folder;
  const Picture p = draw_sheet(200, 300, 1, bits);
  write_tiff(
      folder / "whole.tif",
      {{p, {.photometric = photometric, .compression = compression, .rows_per_strip = 300}}});
  const GreyImage whole = load_page(folder / "whole.tif", 1).grey;
  const std::string strip = only_strip_of(folder / "whole.tif");
  const auto path = folder / "scan.tif";
  write_bytes(path, tiff_with_directory_first(200, 300, bits, compression, photometric, strip,
                                              strip.size()));
  EXPECT_EQ(load_page(path, 1).grey.pixels, whole.pixels);
  for (std::size_t tenths = 1; tenths < 10; ++tenths) {
    const std::string cut = strip.substr(0, strip.size() * tenths / 10);
    for (std::size_t stated : {strip.size(), cut.size()}) {
      write_bytes(path,
                  tiff_with_directory_first(200, 300, bits, compression, photometric, cut, stated));
      EXPECT_THAT(refusal_of(path), kDamaged)
          << tenths << "/10, stated " << stated << " of " << strip.size();
    }
  }
}

INSTANTIATE_TEST_SUITE_P(
    Compressions, StripThatEndsEarly,
    ::testing::Values(std::pair{COMPRESSION_NONE, 8}, std::pair{COMPRESSION_PACKBITS, 8},
                      std::pair{COMPRESSION_LZW, 8}, std::pair{COMPRESSION_ADOBE_DEFLATE, 8},
                      std::pair{COMPRESSION_CCITTRLE, 1}, std::pair{COMPRESSION_CCITTFAX3, 1},
                      std::pair{COMPRESSION_CCITTFAX4, 1}));

std::string png_chunk(const std::string& type, const std::string& data) {
  const auto number = [](std::uint32_t v) {
    std::string four(4, '\0');
    for (std::size_t i = 0; i < 4; ++i) four[i] = static_cast<char>(v >> (24 - 8 * i));
    return four;
  };
  const std::string body = type + data;
  const auto crc =
      crc32(0, reinterpret_cast<const Bytef*>(body.data()), static_cast<uInt>(body.size()));
  return number(static_cast<std::uint32_t>(data.size())) + body +
         number(static_cast<std::uint32_t>(crc));
}

/// A PNG that says it is `width` x `height` and holds next to nothing.
std::string hollow_png(std::uint32_t width, std::uint32_t height) {
  std::string header;
  for (std::uint32_t v : {width, height}) {
    for (int shift = 24; shift >= 0; shift -= 8) header.push_back(static_cast<char>(v >> shift));
  }
  header += std::string("\x08\x00\x00\x00\x00", 5);
  return "\x89PNG\r\n\x1a\n" + png_chunk("IHDR", header) + png_chunk("IDAT", "x") +
         png_chunk("IEND", "");
}

/// A sound little JPEG whose frame header says `width` x `height`.
std::string hollow_jpeg(const Folder& folder, unsigned width, unsigned height) {
  write_jpeg(folder / "small.jpg", draw_sheet(16, 16, 1, 8), {});
  std::string bytes = bytes_of(folder / "small.jpg");
  const std::size_t frame = bytes.find("\xff\xc0");  // SOF0: length 2, precision 1, height, width
  bytes[frame + 5] = static_cast<char>(height >> 8);
  bytes[frame + 6] = static_cast<char>(height);
  bytes[frame + 7] = static_cast<char>(width >> 8);
  bytes[frame + 8] = static_cast<char>(width);
  return bytes;
}

std::size_t largest_allocation_during(const std::function<void()>& work) {
  g_largest_allocation = 0;
  work();
  return g_largest_allocation;
}

TEST(HeaderBomb, IsRefusedBeforeMemoryIsTakenForIt) {
  const Folder folder;
  const auto path = folder / "bomb";
  // Above the limits, and below them but with far too few bytes for that many pixels.
  for (const auto& [side, why] :
       {std::pair{60000u, "scan_too_large width_px=60000 height_px=60000"},
        {16000u, "scan_truncated"}}) {
    for (const std::string& bytes :
         {hollow_png(side, side), hollow_jpeg(folder, side, side),
          tiff_with_directory_first(static_cast<int>(side), static_cast<int>(side), 8,
                                    COMPRESSION_NONE, PHOTOMETRIC_MINISBLACK, "few", 3),
          tiff_with_directory_first(static_cast<int>(side), static_cast<int>(side), 8,
                                    COMPRESSION_LZW, PHOTOMETRIC_MINISBLACK, "few", 3)}) {
      write_bytes(path, bytes);
      const std::size_t largest = largest_allocation_during(
          [&, why = why] { EXPECT_THAT(refusal_of(path), HasSubstr(why)); });
      EXPECT_LT(largest, 1u << 20);
    }
  }
}

TEST(HeaderBomb, OfOneEndlessRowIsRefused) {
  const Folder folder;
  write_bytes(folder / "bomb.png", hollow_png(300'000'000, 1));
  EXPECT_THAT(refusal_of(folder / "bomb.png"), HasSubstr("most_side_px=100000"));
}

TEST(ScanLimits, AreThoseOfTheCaller) {
  const Folder folder;
  write_png(folder / "scan.png", draw_sheet(30, 20, 1, 8), {});
  EXPECT_EQ(load_page(folder / "scan.png", 1, {.max_pixels = 600}).grey.pixels.size(), 600u);
  EXPECT_THAT(refusal_of(folder / "scan.png", 1, {.max_pixels = 599}),
              HasSubstr("scan_too_large width_px=30 height_px=20"));
  EXPECT_THAT(refusal_of(folder / "scan.png", 1, {.max_side = 29}), HasSubstr("scan_too_large"));
}

TEST(NotAScan, IsRefusedByWhatItIs) {
  const Folder folder;
  EXPECT_THAT(refusal_of(folder / "none.png"), HasSubstr("cannot_open"));
  EXPECT_THAT(refusal_of(folder.path()), HasSubstr("scan_is_a_folder"));
  write_bytes(folder / "empty.png", "");
  EXPECT_THAT(refusal_of(folder / "empty.png"), HasSubstr("scan_is_empty"));
  write_bytes(folder / "letter.png", "Dear members, the walk is on Sunday.");
  EXPECT_THAT(refusal_of(folder / "letter.png"), HasSubstr("not_a_scan_format"));
  write_bytes(folder / "short.png", "\x89");
  EXPECT_THAT(refusal_of(folder / "short.png"), HasSubstr("not_a_scan_format"));
  EXPECT_THROW(count_pages(folder / "letter.png"), Error);
}

TEST(Signature, DecidesAndTheNameDoesNot) {
  const Folder folder;
  const Picture p = draw_sheet(30, 20, 1, 8);
  write_png(folder / "really_a_png.jpg", p, {});
  EXPECT_EQ(largest_difference(load_page(folder / "really_a_png.jpg", 1).grey, p), 0.0);
  write_tiff(folder / "really_a_tiff", {{p, {}}});
  EXPECT_EQ(largest_difference(load_page(folder / "really_a_tiff", 1).grey, p), 0.0);
}

TEST(FlippedBytes, GiveAPlaneOrAnErrorAndNothingElse) {
  const Folder folder;
  const auto path = folder / "flipped";
  const ScanLimits limits{.max_pixels = 1'000'000, .max_side = 100'000};
  Random random(2025);
  int read = 0;
  int refused = 0;
  for (const auto& original : corpus()) {
    const std::string whole = bytes_of(original);
    for (int i = 0; i < 300; ++i) {
      std::string bytes = whole;
      for (std::uint32_t flips = 1 + random.below(6); flips > 0; --flips) {
        // Half of the flips go to the first 200 bytes: headers and directories.
        const std::size_t reach =
            random.below(2) == 0 ? bytes.size() : std::min<std::size_t>(200, bytes.size());
        const std::size_t at = random.below(static_cast<std::uint32_t>(reach));
        bytes[at] = static_cast<char>(random.next());
      }
      write_bytes(path, bytes);
      try {
        for_each_page(path, limits, [&](Scan&& scan) {
          ASSERT_EQ(scan.grey.pixels.size(), static_cast<std::size_t>(scan.grey.width) *
                                                 static_cast<std::size_t>(scan.grey.height));
          ++read;
        });
      } catch (const Error&) {
        ++refused;
      }
    }
  }
  EXPECT_GT(refused, 1000);  // most of it must be noticed: PNG and deflate carry check sums
  EXPECT_GT(read, 100);      // and not everything is refused
}

}  // namespace
}  // namespace versolay
