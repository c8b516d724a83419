// Unpacks the LZW streams of a PDF.
#pragma once

#include <array>
#include <cstdint>
#include <qpdf/Pipeline.hh>
#include <string>

namespace versolay {

/// qpdf has such a decoder, but does not offer it, so that what comes out of it cannot be counted.
/// Bytes beyond the end of data are ignored. Throws std::runtime_error for a code that cannot be.
/// Source  ISO 32000-1, 7.4.4.2; Welch, IEEE Computer 17 (6), 1984 (from memory).
class Lzw : public Pipeline {
 public:
  /// @param early_change  EarlyChange of the parameters: code lengths grow one code early.
  Lzw(bool early_change, Pipeline* onward);
  void write(const unsigned char* data, std::size_t size) override;
  void finish() override;

 private:
  void take(unsigned code);
  void put_out(unsigned code);
  void clear();

  struct Entry {
    std::uint16_t before = 0;  // the code of all but the last byte
    std::uint16_t length = 1;
    unsigned char first = 0;
    unsigned char last = 0;
  };
  std::array<Entry, 4096> table_;
  unsigned early_;
  unsigned next_ = 0;  // code that the table gets next
  unsigned width_ = 9;
  int previous_ = -1;  // -1: none since the table was cleared
  bool ended_ = false;
  std::uint32_t bits_ = 0;
  unsigned held_ = 0;  // bits in bits_
  std::basic_string<unsigned char> text_;
};

}  // namespace versolay
