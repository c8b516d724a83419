#include "pdf/lzw.h"

#include <stdexcept>

namespace versolay {
namespace {

constexpr unsigned kClear = 256;
constexpr unsigned kEndOfData = 257;
constexpr unsigned kFirstFree = 258;
constexpr unsigned kMostCodes = 4096;
constexpr unsigned kLongest = 12;

}  // namespace

Lzw::Lzw(bool early_change, Pipeline* onward)
    : Pipeline("lzw", onward), early_(early_change ? 1 : 0) {
  for (unsigned code = 0; code < 256; ++code) {
    table_[code].first = table_[code].last = static_cast<unsigned char>(code);
  }
  clear();
}

void Lzw::clear() {
  next_ = kFirstFree;
  width_ = 9;
  previous_ = -1;
}

void Lzw::write(const unsigned char* data, std::size_t size) {
  for (std::size_t i = 0; i < size && !ended_; ++i) {
    bits_ = bits_ << 8 | data[i];
    held_ += 8;
    if (held_ < width_) continue;
    held_ -= width_;
    const unsigned code = bits_ >> held_ & ((1U << width_) - 1);
    bits_ &= (1U << held_) - 1;
    take(code);
  }
}

void Lzw::take(unsigned code) {
  if (code == kEndOfData) {
    ended_ = true;
    return;
  }
  if (code == kClear) return clear();
  // The code that is about to be entered stands for the last text and its own first byte.
  const bool is_next = code == next_ && previous_ >= 0 && next_ < kMostCodes;
  if (code >= next_ && !is_next) throw std::runtime_error("LZW: a code that cannot be");
  if (previous_ >= 0 && next_ < kMostCodes) {
    const auto before = static_cast<unsigned>(previous_);
    Entry& entry = table_[next_];
    entry.before = static_cast<std::uint16_t>(before);
    entry.length = static_cast<std::uint16_t>(table_[before].length + 1);
    entry.first = table_[before].first;
    entry.last = is_next ? entry.first : table_[code].first;
    ++next_;
  }
  put_out(code);
  previous_ = static_cast<int>(code);
  if (next_ + early_ >= 1U << width_ && width_ < kLongest) ++width_;
}

void Lzw::put_out(unsigned code) {
  text_.resize(table_[code].length);
  for (std::size_t i = text_.size(); i-- > 0; code = table_[code].before) {
    text_[i] = table_[code].last;
  }
  getNext()->write(text_.data(), text_.size());
}

void Lzw::finish() { getNext()->finish(); }

}  // namespace versolay
