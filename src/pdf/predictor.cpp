#include "pdf/predictor.h"

#include <algorithm>
#include <cstdlib>

namespace versolay {
namespace {

constexpr long long kMostRowBytes = 4 << 20;

unsigned char paeth(int left, int above, int above_left) {
  const int estimate = left + above - above_left;
  const int by_left = std::abs(estimate - left);
  const int by_above = std::abs(estimate - above);
  const int by_corner = std::abs(estimate - above_left);
  if (by_left <= by_above && by_left <= by_corner) return static_cast<unsigned char>(left);
  return static_cast<unsigned char>(by_above <= by_corner ? above : above_left);
}

/// What the filter of a PNG row added to a byte. Source: W3C PNG, third edition, 9.2.
int prediction(unsigned char filter, int left, int above, int above_left) {
  switch (filter) {
    case 1:
      return left;
    case 2:
      return above;
    case 3:
      return (left + above) / 2;
    case 4:
      return paeth(left, above, above_left);
    default:
      return 0;
  }
}

}  // namespace

std::optional<Predictor> predictor_from(QPDFObjectHandle parameters) {
  Predictor predictor;
  if (parameters.isNull()) return predictor;
  if (!parameters.isDictionary()) return std::nullopt;
  const auto value = [&](const char* key, long long otherwise) {
    auto given = parameters.getKey(key);
    return given.isNull() ? otherwise : given.isInteger() ? given.getIntValue() : -1;
  };
  const long long kind = value("/Predictor", 1);
  const long long columns = value("/Columns", 1);
  const long long colours = value("/Colors", 1);
  const long long bits = value("/BitsPerComponent", 8);
  if (kind == 1) return predictor;
  const bool known = kind == 2 || (kind >= 10 && kind <= 15);
  const bool usual_bits = bits == 1 || bits == 2 || bits == 4 || bits == 8 || bits == 16;
  if (!known || !usual_bits || (kind == 2 && bits != 8)) return std::nullopt;
  if (colours < 1 || colours > 32 || columns < 1 || columns > kMostRowBytes) return std::nullopt;
  const long long row_bytes = (columns * colours * bits + 7) / 8;
  if (row_bytes > kMostRowBytes) return std::nullopt;
  predictor.kind = static_cast<int>(kind);
  predictor.pixel_bytes = static_cast<std::size_t>(std::max(1LL, colours * bits / 8));
  predictor.row_bytes = static_cast<std::size_t>(row_bytes);
  return predictor;
}

Unpredict::Unpredict(const Predictor& predictor, Pipeline* onward)
    : Pipeline("predictor", onward), predictor_(predictor), previous_(predictor.row_bytes, 0) {}

void Unpredict::write(const unsigned char* data, std::size_t size) {
  const std::size_t whole = predictor_.row_bytes + (predictor_.kind >= 10 ? 1 : 0);
  while (size > 0) {
    const std::size_t taken = std::min(size, whole - row_.size());
    row_.append(data, taken);
    data += taken;
    size -= taken;
    if (row_.size() == whole) undo_row();
  }
}

void Unpredict::finish() {
  if (!row_.empty()) undo_row();  // broken off
  getNext()->finish();
}

void Unpredict::undo_row() {
  unsigned char filter = 1;  // TIFF: always the pixel to the left
  if (predictor_.kind >= 10) {
    filter = row_.front();
    row_.erase(0, 1);
  }
  const std::size_t step = predictor_.pixel_bytes;
  for (std::size_t i = 0; i < row_.size(); ++i) {
    const int left = i >= step ? row_[i - step] : 0;
    const int above_left = i >= step ? previous_[i - step] : 0;
    row_[i] =
        static_cast<unsigned char>(row_[i] + prediction(filter, left, previous_[i], above_left));
  }
  getNext()->write(row_.data(), row_.size());
  if (row_.size() == previous_.size()) previous_ = row_;
  row_.clear();
}

}  // namespace versolay
