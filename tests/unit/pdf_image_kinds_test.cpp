// Every way in which a picture may be stored comes out of the PDF in its own greys.
#include <gtest/gtest.h>

#include "artwork/raster.h"
#include "core/files.h"
#include "pdf/pdf_document.h"
#include "support/image_files.h"
#include "support/pdf_render.h"

namespace versolay {
namespace {

using namespace testing_support;

const Paper kPaper = paper_of_size(60.0, 40.0);

/// Four by two pixels, each 10 mm wide.
constexpr std::array<std::array<int, 4>, 2> kGreys = {{{0, 85, 170, 255}, {255, 0, 85, 170}}};

Raster greys(int channels, int bits) {
  Raster r;
  r.width_px = 4;
  r.height_px = 2;
  r.channels = channels;
  r.bits = bits;
  for (const auto& row : kGreys) {
    for (const int grey : row) {
      for (int c = 0; c < channels; ++c) {
        r.samples.push_back(static_cast<std::uint16_t>(bits == 8 ? grey : grey * 257));
      }
    }
  }
  return r;
}

CodedImage png_of(const PngKind& kind, const std::vector<std::vector<unsigned char>>& rows) {
  std::vector<png_color> palette;
  if (kind.colour_type == PNG_COLOR_TYPE_PALETTE) {
    palette = {{0, 0, 0}, {85, 85, 85}, {170, 170, 170}, {255, 255, 255}};
  }
  return parse_image(png_bytes(kind, 4, 2, rows, palette), "x.png");
}

TEST(ImageKinds, ComeOutInTheirOwnGreys) {
  const std::vector<std::pair<std::string, CodedImage>> kinds = {
      {"grey 8", parse_image(encode_png(greys(1, 8)), "x.png")},
      {"grey 16", parse_image(encode_png(greys(1, 16)), "x.png")},
      {"rgb 16", parse_image(encode_png(greys(3, 16)), "x.png")},
      {"palette 8", png_of({PNG_COLOR_TYPE_PALETTE, 8, false}, {{0, 1, 2, 3}, {3, 0, 1, 2}})},
      {"palette 2", png_of({PNG_COLOR_TYPE_PALETTE, 2, false}, {{0x1B}, {0xC6}})},
      {"grey 2", png_of({PNG_COLOR_TYPE_GRAY, 2, false}, {{0x1B}, {0xC6}})},
      {"interlaced",
       png_of({PNG_COLOR_TYPE_GRAY, 8, true}, {{0, 85, 170, 255}, {255, 0, 85, 170}})},
      {"tiff 8", parse_image(encode_tiff(greys(1, 8)), "x.tif")},
      {"tiff 16 rgb", parse_image(encode_tiff(greys(3, 16)), "x.tif")}};
  const ScratchFolder scratch;
  for (const auto& [name, image] : kinds) {
    SCOPED_TRACE(name);
    PdfPage page{kPaper, {}, {{0, {0, 0}, 40, 20, 0, {-20, -10, 20, 10}}}};
    write_file_atomically(scratch / "kind.pdf",
                          render_pdf({"kind", Turn::long_edge, {page}, {image}}), true);
    EXPECT_EQ(run("qpdf --check '" + (scratch / "kind.pdf").string() + "'").status, 0);
    for (const Renderer renderer : {Renderer::pdftocairo, Renderer::mutool}) {
      const RenderedPage seen = render_page(renderer, scratch / "kind.pdf", 1, kPaper, 100);
      for (int y = 0; y < 2; ++y) {
        for (int x = 0; x < 4; ++x) {
          const double grey = kGreys[static_cast<std::size_t>(y)][static_cast<std::size_t>(x)];
          EXPECT_NEAR(seen.ink_at({10.0 * x - 15, 10.0 * y - 5}), 1 - grey / 255, 0.01)
              << program(renderer) << " pixel " << x << " " << y;
        }
      }
    }
  }
}

}  // namespace
}  // namespace versolay
