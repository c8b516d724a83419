#include "images/tiff_rows.h"

#include <algorithm>
#include <cstring>

namespace versolay::images {
namespace {

using Bytes = std::vector<std::uint8_t>;
using Use = std::function<void(const TiffRun&)>;

/// Of this many pixels, as they are stored: of one plane, where there are several.
std::uint64_t bytes_of(std::uint64_t pixels, const TiffLayout& layout) {
  return (pixels * (layout.planar ? 1u : layout.samples) * layout.bits + 7) / 8;
}

constexpr std::size_t kReleaseEvery = 4u << 20;  // bytes decoded

/// Not strip by strip: some scanner programs write a page as one.
void read_scanlines(const TiffReader& file, const TiffLayout& layout, const Use& use) {
  Bytes row(static_cast<std::size_t>(TIFFScanlineSize64(file.get())));
  file.require(row.size() >= bytes_of(layout.width_px, layout));
  std::size_t since_release = 0;
  for (std::uint32_t y = 0; y < layout.height_px; ++y) {
    if (TIFFReadScanline(file.get(), row.data(), y, 0) != 1) {
      file.fail("row " + std::to_string(y + 1) + " is missing");
    }
    use({row.data(), layout.samples, 0, y, layout.width_px});
    since_release += row.size();
    if (since_release < kReleaseEvery) continue;
    file.release_mapped();
    file.check();
    since_release = 0;
  }
}

/// A tile, or a strip of one plane.
struct BlockSize {
  std::uint32_t width = 0;
  std::uint32_t height = 0;
  std::size_t row_bytes = 0;
};

BlockSize block_size(const TiffReader& file, const TiffLayout& layout, std::uint64_t largest) {
  BlockSize size;
  if (layout.tiled) {
    TIFFGetField(file.get(), TIFFTAG_TILEWIDTH, &size.width);
    TIFFGetField(file.get(), TIFFTAG_TILELENGTH, &size.height);
    size.row_bytes = static_cast<std::size_t>(TIFFTileRowSize64(file.get()));
  } else {
    const auto rows = file.field<std::uint32_t>(TIFFTAG_ROWSPERSTRIP, layout.height_px);
    size = {layout.width_px, std::min(rows, layout.height_px),
            static_cast<std::size_t>(TIFFScanlineSize64(file.get()))};
  }
  if (size.width == 0 || size.height == 0 || size.row_bytes == 0 ||
      size.row_bytes > largest / size.height) {
    throw PictureError(PictureFault::unsupported, "blocks of " + std::to_string(size.width) +
                                                      " x " + std::to_string(size.height) +
                                                      " pixels");
  }
  file.require(size.row_bytes >= bytes_of(size.width, layout));
  return size;
}

/// @param at  the first run of the block; as much is read as `block` holds.
void read_block(const TiffReader& file, const TiffRun& at, std::uint16_t plane, bool tiled,
                Bytes& block) {
  const auto size = static_cast<tmsize_t>(block.size());
  const std::uint32_t index = tiled ? TIFFComputeTile(file.get(), at.x, at.y, 0, plane)
                                    : TIFFComputeStrip(file.get(), at.y, plane);
  const tmsize_t read = tiled ? TIFFReadEncodedTile(file.get(), index, block.data(), size)
                              : TIFFReadEncodedStrip(file.get(), index, block.data(), size);
  if (read == size) return;
  file.fail((tiled ? "tile " : "strip ") + std::to_string(index + 1) + " is missing");
}

/// Pixels out of planes that hold one sample each.
void interleave(const std::vector<Bytes>& planes, std::size_t from, std::size_t sample_bytes,
                Bytes& pixels) {
  const std::size_t stride = planes.size() * sample_bytes;
  for (std::size_t s = 0; s < planes.size(); ++s) {
    const std::uint8_t* sample = planes[s].data() + from;
    for (std::size_t to = s * sample_bytes; to < pixels.size(); to += stride) {
      std::memcpy(pixels.data() + to, sample, sample_bytes);
      sample += sample_bytes;
    }
  }
}

void read_blocks(const TiffReader& file, const TiffLayout& layout, std::uint64_t largest,
                 const Use& use) {
  const BlockSize size = block_size(file, layout, largest);
  const std::size_t sample_bytes = layout.bits / 8u;  // planes: of 8 or 16 bits
  const std::size_t stride = layout.planar ? layout.samples_used() : layout.samples;
  std::vector<Bytes> planes(layout.planar ? stride : 1);
  Bytes pixels;
  for (std::uint32_t y = 0; y < layout.height_px; y += size.height) {
    const std::uint32_t rows = std::min(size.height, layout.height_px - y);
    for (std::uint32_t x = 0; x < layout.width_px; x += size.width) {
      TiffRun run{nullptr, stride, x, y, std::min(size.width, layout.width_px - x)};
      for (std::uint16_t s = 0; s < planes.size(); ++s) {
        planes[s].resize((layout.tiled ? size.height : rows) * size.row_bytes);
        read_block(file, run, s, layout.tiled, planes[s]);
      }
      for (std::size_t from = 0; run.y < y + rows; ++run.y, from += size.row_bytes) {
        if (layout.planar) {
          pixels.resize(run.width * stride * sample_bytes);
          interleave(planes, from, sample_bytes, pixels);
        }
        run.samples = layout.planar ? pixels.data() : planes[0].data() + from;
        use(run);
      }
      file.release_mapped();
      file.check();
    }
  }
}

}  // namespace

void read_rows(const TiffReader& file, const TiffLayout& layout, std::uint64_t largest_block,
               const std::function<void(const TiffRun&)>& use) {
  if (layout.tiled || layout.planar) {
    read_blocks(file, layout, largest_block, use);
  } else {
    read_scanlines(file, layout, use);
  }
  file.check();
}

}  // namespace versolay::images
