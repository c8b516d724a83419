#include <tiffio.h>

#include <algorithm>
#include <cstring>
#include <memory>
#include <new>
#include <vector>

#include "artwork/raster.h"
#include "core/expect.h"

namespace versolay {
namespace {

/// A TIFF that is being written into memory; the functions of libtiff's callbacks.
struct Sink {
  std::string bytes;
  std::uint64_t position = 0;

  static Sink& of(thandle_t handle) { return *static_cast<Sink*>(handle); }
  static tmsize_t read(thandle_t, void*, tmsize_t) { return 0; }  // nothing is read back
  static tmsize_t write(thandle_t handle, void* buffer, tmsize_t size) {
    Sink& s = of(handle);
    const auto count = static_cast<std::uint64_t>(size);
    if (s.position + count > s.bytes.size()) s.bytes.resize(s.position + count);
    std::memcpy(s.bytes.data() + s.position, buffer, count);
    s.position += count;
    return size;
  }
  static toff_t seek(thandle_t handle, toff_t offset, int whence) {
    Sink& s = of(handle);
    s.position = whence == SEEK_SET   ? offset
                 : whence == SEEK_CUR ? s.position + offset
                                      : s.bytes.size() + offset;
    return s.position;
  }
  static int close(thandle_t) { return 0; }
  static toff_t length(thandle_t handle) { return of(handle).bytes.size(); }
};

}  // namespace

std::string encode_tiff(const Raster& raster) {
  Sink sink;
  std::unique_ptr<TIFF, void (*)(TIFF*)> tiff(
      TIFFClientOpen("TIFF", "wl", &sink, &Sink::read, &Sink::write, &Sink::seek, &Sink::close,
                     &Sink::length, nullptr, nullptr),
      TIFFClose);
  if (!tiff) throw std::bad_alloc();
  TIFF* const t = tiff.get();
  TIFFSetField(t, TIFFTAG_IMAGEWIDTH, raster.width_px);
  TIFFSetField(t, TIFFTAG_IMAGELENGTH, raster.height_px);
  TIFFSetField(t, TIFFTAG_BITSPERSAMPLE, raster.bits);
  TIFFSetField(t, TIFFTAG_SAMPLESPERPIXEL, raster.channels);
  TIFFSetField(t, TIFFTAG_PHOTOMETRIC,
               raster.channels == 1   ? PHOTOMETRIC_MINISBLACK
               : raster.channels == 3 ? PHOTOMETRIC_RGB
                                      : PHOTOMETRIC_SEPARATED);
  TIFFSetField(t, TIFFTAG_PLANARCONFIG, PLANARCONFIG_CONTIG);
  TIFFSetField(t, TIFFTAG_COMPRESSION, COMPRESSION_ADOBE_DEFLATE);
  TIFFSetField(t, TIFFTAG_PREDICTOR, PREDICTOR_HORIZONTAL);
  TIFFSetField(t, TIFFTAG_ROWSPERSTRIP, TIFFDefaultStripSize(t, 0));
  if (raster.ppi_x && raster.ppi_y) {
    TIFFSetField(t, TIFFTAG_RESOLUTIONUNIT, RESUNIT_INCH);
    TIFFSetField(t, TIFFTAG_XRESOLUTION, *raster.ppi_x);
    TIFFSetField(t, TIFFTAG_YRESOLUTION, *raster.ppi_y);
  }
  if (!raster.icc_profile.empty()) {
    TIFFSetField(t, TIFFTAG_ICCPROFILE, static_cast<std::uint32_t>(raster.icc_profile.size()),
                 raster.icc_profile.data());
  }
  std::vector<std::uint16_t> row(raster.row_samples());
  for (int y = 0; y < raster.height_px; ++y) {
    std::copy_n(&raster.samples[static_cast<std::size_t>(y) * row.size()], row.size(), row.begin());
    // libtiff may change the row that it is given.
    std::vector<std::uint8_t> bytes(row.begin(), row.end());
    void* samples = raster.bits == 8 ? static_cast<void*>(bytes.data()) : row.data();
    expect(TIFFWriteScanline(t, samples, static_cast<std::uint32_t>(y), 0) == 1);
  }
  expect(TIFFWriteDirectory(t) == 1);
  tiff.reset();  // what it still holds is written now
  return std::move(sink.bytes);
}

}  // namespace versolay
