#include "artwork/coded_image.h"

#include <algorithm>
#include <cctype>

#include "artwork/jpeg_file.h"
#include "artwork/orientation.h"
#include "artwork/png_file.h"
#include "artwork/raster.h"
#include "core/files.h"
#include "versolay/result.h"

namespace versolay {
namespace {

Error not_an_image(const std::string& file, std::string_view bytes) {
  if (bytes.empty()) return Error(file, "is empty. Export or copy it again");
  return Error(file, "is neither a JPEG nor a PNG, whatever its name says. Save it as one of them");
}

}  // namespace

bool has_image_name(const std::filesystem::path& path) {
  std::string extension = path.extension().string();
  std::transform(extension.begin(), extension.end(), extension.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return extension == ".jpg" || extension == ".jpeg" || extension == ".png";
}

CodedImage read_coded_image(const std::filesystem::path& path) {
  std::string bytes = read_file(path);
  if (looks_like_jpeg(bytes)) return parse_jpeg(std::move(bytes), path.string());
  if (looks_like_png(bytes)) return parse_png(bytes, path.string());
  throw not_an_image(path.string(), bytes);
}

Raster read_raster(const std::filesystem::path& path) {
  const std::string bytes = read_file(path);
  if (looks_like_png(bytes)) return decode_png(bytes, path.string());
  if (!looks_like_jpeg(bytes)) throw not_an_image(path.string(), bytes);
  const int orientation = parse_jpeg(bytes, path.string()).orientation;
  return oriented(decode_jpeg(bytes, path.string()), orientation);
}

}  // namespace versolay
