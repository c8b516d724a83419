#include "scan/tiff_file.h"

#include <sys/mman.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <string_view>

#include "core/translation.h"

namespace versolay::scan {
namespace {

// No sound file needs a larger block than this: strips and tiles are checked before.
constexpr tmsize_t kLargestAllocation = tmsize_t{1} << 29;

}  // namespace

tmsize_t TiffFile::Stream::read(thandle_t handle, void* buffer, tmsize_t size) {
  Stream& s = of(handle);
  tmsize_t done = 0;
  while (done < size) {
    const ssize_t n = pread(s.descriptor, static_cast<char*>(buffer) + done,
                            static_cast<std::size_t>(size - done), s.position);
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) break;
    done += n;
    s.position += n;
  }
  return done;
}

toff_t TiffFile::Stream::seek(thandle_t handle, toff_t offset, int whence) {
  Stream& s = of(handle);
  const std::int64_t from = whence == SEEK_SET ? 0 : whence == SEEK_CUR ? s.position : s.size;
  s.position = from + static_cast<std::int64_t>(offset);
  return static_cast<toff_t>(s.position);
}

int TiffFile::Stream::map(thandle_t handle, void** base, toff_t* size) {
  Stream& s = of(handle);
  void* start =
      mmap(nullptr, static_cast<std::size_t>(s.size), PROT_READ, MAP_PRIVATE, s.descriptor, 0);
  if (start == MAP_FAILED) return 0;
  *base = s.mapped = start;
  *size = static_cast<toff_t>(s.size);
  return 1;
}

void TiffFile::Stream::unmap(thandle_t handle, void* base, toff_t size) {
  munmap(base, static_cast<std::size_t>(size));
  of(handle).mapped = nullptr;
}

TiffFile::TiffFile(const InputFile& file, const Place& place, TiffAccess access)
    : place_(place), stream_{file.descriptor(), file.size(), 0, nullptr} {
  const std::unique_ptr<TIFFOpenOptions, void (*)(TIFFOpenOptions*)> options(TIFFOpenOptionsAlloc(),
                                                                             TIFFOpenOptionsFree);
  if (!options) fail(tr("not enough memory"));
  TIFFOpenOptionsSetMaxSingleMemAlloc(options.get(), kLargestAllocation);
  TIFFOpenOptionsSetErrorHandlerExtR(options.get(), on_error, this);
  TIFFOpenOptionsSetWarningHandlerExtR(options.get(), on_warning, this);
  // D: strip positions when they are needed; m: no mapping.
  tiff_.reset(TIFFClientOpenExt(place.path.c_str(), access == TiffAccess::map ? "rD" : "rDm",
                                &stream_, Stream::read, Stream::write, Stream::seek, Stream::close,
                                Stream::length, Stream::map, Stream::unmap, options.get()));
  if (!tiff_) fail(tr("it does not hold together as a TIFF file"));
}

void TiffFile::complain(const char* format, va_list list) {
  if (complained_) return;  // the first complaint is the cause
  complained_ = true;
  std::vsnprintf(complaint_.data(), complaint_.size(), format, list);
}

int TiffFile::on_error(TIFF*, void* self, const char*, const char* format, va_list list) {
  static_cast<TiffFile*>(self)->complain(format, list);
  return 1;  // done with: nothing is printed
}

int TiffFile::on_warning(TIFF*, void* self, const char*, const char* format, va_list list) {
  auto* file = static_cast<TiffFile*>(self);
  const bool old_writer = std::string_view(format).starts_with("Old-style LZW codes");
  if (file->strict_ && !old_writer) file->complain(format, list);
  return 1;
}

void TiffFile::check() const {
  if (complained_) fail("");
}

void TiffFile::fail(const std::string& otherwise) const {
  throw damaged(place_, complained_ ? std::string(complaint_.data()) : otherwise);
}

void TiffFile::release_mapped() const {
  if (stream_.mapped == nullptr) return;
  madvise(stream_.mapped, static_cast<std::size_t>(stream_.size), MADV_DONTNEED);
}

}  // namespace versolay::scan
