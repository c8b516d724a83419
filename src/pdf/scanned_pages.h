// The pages of a PDF that a scanner program wrote: which pictures they paint, and the samples.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <vector>

namespace versolay {

/// One picture of a page, as it is stored.
struct ScannedPicture {
  enum class Kind { image, stencil, mask };
  enum class Colours { grey, rgb, palette, cmyk, other };
  /// A whole JPEG; rows of samples in packings that lose nothing; or neither.
  enum class Packing { jpeg, samples, other };

  Kind kind = Kind::image;
  Colours colours = Colours::other;
  Packing packing = Packing::other;
  int width_px = 0;
  int height_px = 0;
  int bits = 0;                         // of a sample or a palette index: 1, 2, 4, 8 or 16
  bool inverted = false;                // Decode [1 0], of grey: 0 is white
  std::vector<std::uint8_t> palette{};  // red, green, blue, red, ...; one entry for each index
  double across_pt = 0.0;               // what a row, and a column, is long on the page
  double down_pt = 0.0;

  int channels() const;
  std::size_t row_bytes() const;  // rows begin at bytes (ISO 32000-1, 8.9.3)
};

/// Everything here throws std::runtime_error (Error, or qpdf's own) when the file cannot be read:
/// no PDF, damaged, locked, or of objects or contents that unpack to more than 128 MB.
class ScannedPages {
 public:
  explicit ScannedPages(const std::string& file);
  ~ScannedPages();

  int pages() const;
  struct Size {
    double width_pt = 0.0;
    double height_pt = 0.0;
  };
  /// What is to be seen of a page, not turned. Precondition, also below: 1 <= page <= pages().
  Size size(int page);
  /// In the order they are painted in, also by forms and within the contents; masks count.
  std::vector<ScannedPicture> pictures(int page);

  using Row = std::function<void(const unsigned char* samples)>;
  /// The rows of the only picture of a page, whose packing is `samples`. False: not all of them are
  /// there, or more.
  bool read_rows(int page, const Row& row);
  /// The file inside the only picture of a page, whose packing is `jpeg`.
  std::string jpeg(int page);

 private:
  struct Open;
  std::unique_ptr<Open> open_;
};

}  // namespace versolay
