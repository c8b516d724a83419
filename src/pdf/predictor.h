// Undoes what a Flate stream's predictor did to its rows.
#pragma once

#include <optional>
#include <qpdf/Pipeline.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <string>

namespace versolay {

/// The rows of a stream before it was packed. Source: ISO 32000-1, 7.4.4.3 and 7.4.4.4.
struct Predictor {
  int kind = 1;  // 1 none, 2 TIFF, 10 to 15 PNG
  std::size_t pixel_bytes = 1;
  std::size_t row_bytes = 1;

  bool needed() const { return kind != 1; }
};

/// nullopt: parameters that are against the standard, a row of more than 4 MB, or TIFF's predictor
/// with samples of another size than 8 bits. Then the stream is left packed.
std::optional<Predictor> predictor_from(QPDFObjectHandle parameters);

class Unpredict : public Pipeline {
 public:
  Unpredict(const Predictor& predictor, Pipeline* onward);
  void write(const unsigned char* data, std::size_t size) override;
  void finish() override;

 private:
  void undo_row();

  Predictor predictor_;
  std::basic_string<unsigned char> row_;       // as far as it has come; PNG: led by its filter
  std::basic_string<unsigned char> previous_;  // the row above, without filter
};

}  // namespace versolay
