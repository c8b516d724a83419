#include "artwork/findings.h"
#include "artwork/image_checks.h"
#include "artwork/orientation.h"
#include "artwork/picture_decoders.h"
#include "images/jpeg_reader.h"
#include "versolay/result.h"

namespace versolay {
namespace {

CodedImage header_of(images::JpegReader& reader, const std::string& file) {
  const images::JpegHeader& h = reader.header();
  if (h.arithmetic) {
    throw images::PictureError(images::PictureFault::unsupported, "arithmetic coding");
  }
  check_image_size(h.width_px, h.height_px, file);
  CodedImage image;
  image.coding = PixelCoding::jpeg;
  image.width_px = static_cast<int>(h.width_px);
  image.height_px = static_cast<int>(h.height_px);
  image.components = h.components;
  if (image.components != 1 && image.components != 3 && image.components != 4) {
    throw Error(file, findings::picture_channels(image.components));
  }
  set_ppi(image, h.ppi_x, h.ppi_y);
  image.orientation = h.exif.orientation;
  image.icc_profile = matching_icc_profile(reader.icc_profile(), image.components);
  // Photo editors write CMYK upside down and say so with the Adobe marker.
  image.inverted = image.components == 4 && h.adobe;
  return image;
}

}  // namespace

CodedImage parse_jpeg(const PictureFile& file) {
  images::JpegReader reader(file.bytes);
  CodedImage image = header_of(reader, file.name);
  reader.allow_stray_bytes();
  reader.run([](j_decompress_ptr decoder) {
    decoder->scale_denom = 8;
    decoder->out_color_space = decoder->jpeg_color_space;
    jpeg_start_decompress(decoder);
    const JSAMPARRAY row = (*decoder->mem->alloc_sarray)(
        reinterpret_cast<j_common_ptr>(decoder), JPOOL_IMAGE,
        decoder->output_width * static_cast<JDIMENSION>(decoder->output_components), 1);
    while (decoder->output_scanline < decoder->output_height) jpeg_read_scanlines(decoder, row, 1);
    jpeg_finish_decompress(decoder);  // reads on to the end marker
  });
  return image;
}

Raster decode_jpeg(const PictureFile& file) {
  images::JpegReader reader(file.bytes);
  const CodedImage header = header_of(reader, file.name);
  if (header.components == 4) throw Error(file.name, findings::picture_cmyk());
  Raster raster = empty_raster(header, file.name);
  reader.run([&](j_decompress_ptr decoder) {
    decoder->out_color_space = raster.channels == 1 ? JCS_GRAYSCALE : JCS_RGB;
    jpeg_start_decompress(decoder);
    while (decoder->output_scanline < decoder->output_height) {
      JSAMPROW row = row_bytes(raster, decoder->output_scanline);
      jpeg_read_scanlines(decoder, &row, 1);
    }
    reader.allow_stray_bytes();
    jpeg_finish_decompress(decoder);
  });
  spread_bytes(raster);
  return oriented(std::move(raster), header.orientation);
}

}  // namespace versolay
