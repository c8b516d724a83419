// What a scan costs from file to grey plane, and what the row kernels cost alone.
//   bench_scan --benchmark_filter=decode
#include <benchmark/benchmark.h>

#include "scan/grey_rows.h"
#include "scan/scan.h"
#include "support/scan_files.h"

namespace versolay {
namespace {

using namespace scan_files;

constexpr int kA4At600Width = 4960;
constexpr int kA4At600Height = 7016;

const Folder& folder() {
  static const Folder kept;
  return kept;
}

void decode(benchmark::State& state, const std::filesystem::path& path) {
  for (auto _ : state) {
    const Scan scan = load_page(path, 1);
    benchmark::DoNotOptimize(scan.grey.pixels.data());
  }
  state.SetItemsProcessed(state.iterations() * std::int64_t{kA4At600Width} * kA4At600Height);
}

/// libpng alone: inflate and unfilter into one row, nothing kept.
void libpng_rows(benchmark::State& state, const std::filesystem::path& path) {
  for (auto _ : state) {
    std::FILE* file = std::fopen(path.c_str(), "rb");
    png_structp png = png_create_read_struct(PNG_LIBPNG_VER_STRING, nullptr, nullptr, nullptr);
    png_infop info = png_create_info_struct(png);
    png_init_io(png, file);
    png_read_info(png, info);
    std::vector<png_byte> row(png_get_rowbytes(png, info));
    for (int y = 0; y < kA4At600Height; ++y) png_read_row(png, row.data(), nullptr);
    png_destroy_read_struct(&png, &info, nullptr);
    std::fclose(file);
    benchmark::DoNotOptimize(row.data());
  }
  state.SetItemsProcessed(state.iterations() * std::int64_t{kA4At600Width} * kA4At600Height);
}

void kernel_rgb(benchmark::State& state) {
  const std::size_t n = kA4At600Width;
  std::vector<std::uint8_t> rgb(3 * n, 200);
  std::vector<std::uint8_t> grey(n);
  for (auto _ : state) {
    scan::grey_from_rgb(rgb.data(), grey.data(), n);
    benchmark::DoNotOptimize(grey.data());
    benchmark::ClobberMemory();
  }
  state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(n));
}
BENCHMARK(kernel_rgb);

void kernel_one_bit(benchmark::State& state) {
  const std::size_t n = kA4At600Width;
  std::vector<std::uint8_t> packed(n / 8 + 1, 0x5a);
  std::vector<std::uint8_t> grey(n);
  scan::GreyTable table{0, 255};
  for (auto _ : state) {
    scan::grey_from_packed(packed.data(), 1, grey.data(), n, table);
    benchmark::DoNotOptimize(grey.data());
    benchmark::ClobberMemory();
  }
  state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(n));
}
BENCHMARK(kernel_one_bit);

void register_files() {
  const Picture grey = draw_sheet(kA4At600Width, kA4At600Height, 1, 8);
  const Picture rgb = draw_sheet(kA4At600Width, kA4At600Height, 3, 8);
  const auto add = [](const std::string& name) {
    benchmark::RegisterBenchmark(("decode/" + name).c_str(), [name](benchmark::State& state) {
      decode(state, folder() / name);
    })->Unit(benchmark::kMillisecond);
  };
  write_png(folder() / "grey.png", grey, {});
  write_png(folder() / "rgb.png", rgb, {.colour_type = PNG_COLOR_TYPE_RGB});
  write_jpeg(folder() / "grey.jpg", grey, {});
  write_jpeg(folder() / "rgb.jpg", rgb, {.in_colours = JCS_RGB, .stored_colours = JCS_YCbCr});
  write_tiff(folder() / "grey.tif", {{grey, {}}});
  write_tiff(folder() / "rgb_lzw.tif",
             {{rgb, {.photometric = PHOTOMETRIC_RGB, .compression = COMPRESSION_LZW}}});
  Picture ink = draw_sheet(kA4At600Width, kA4At600Height, 1, 1);
  write_tiff(folder() / "fax4.tif", {{ink,
                                      {.photometric = PHOTOMETRIC_MINISWHITE,
                                       .compression = COMPRESSION_CCITTFAX4,
                                       .rows_per_strip = kA4At600Height}}});
  for (const char* name :
       {"grey.png", "rgb.png", "grey.jpg", "rgb.jpg", "grey.tif", "rgb_lzw.tif", "fax4.tif"}) {
    add(name);
  }
  for (const char* name : {"grey.png", "rgb.png"}) {
    benchmark::RegisterBenchmark(
        (std::string("libpng alone/") + name).c_str(),
        [name](benchmark::State& state) { libpng_rows(state, folder() / name); })
        ->Unit(benchmark::kMillisecond);
  }
}

}  // namespace
}  // namespace versolay

int main(int argc, char** argv) {
  benchmark::Initialize(&argc, argv);
  versolay::register_files();
  benchmark::RunSpecifiedBenchmarks();
}
