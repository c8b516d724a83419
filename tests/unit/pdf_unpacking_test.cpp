// What a PDF may unpack to, and rows with a predictor.
#define POINTERHOLDER_TRANSITION 4
#include <gtest/gtest.h>

#include <array>
#include <cstdint>
#include <cstdlib>
#include <map>
#include <qpdf/Pl_String.hh>
#include <random>
#include <stdexcept>

#include "pdf/lzw.h"
#include "pdf/predictor.h"

namespace versolay {
namespace {

using Bytes = std::basic_string<unsigned char>;

QPDFObjectHandle parameters(const std::string& text) { return QPDFObjectHandle::parse(text); }

std::string undone(const Predictor& predictor, const Bytes& packed, std::size_t piece) {
  std::string out;
  Pl_String collect("collect", nullptr, out);
  Unpredict undo(predictor, &collect);
  for (std::size_t at = 0; at < packed.size(); at += piece) {
    undo.write(packed.data() + at, std::min(piece, packed.size() - at));
  }
  undo.finish();
  return out;
}

/// Written from W3C PNG, 9.2, the other way round.
Bytes filtered(const Bytes& rows, std::size_t row_bytes, std::size_t step) {
  Bytes out;
  for (std::size_t start = 0; start < rows.size(); start += row_bytes) {
    const auto filter = static_cast<unsigned char>(start / row_bytes % 5);
    out += filter;
    for (std::size_t i = 0; i < row_bytes; ++i) {
      const int a = i >= step ? rows[start + i - step] : 0;
      const int b = start > 0 ? rows[start - row_bytes + i] : 0;
      const int c = start > 0 && i >= step ? rows[start - row_bytes + i - step] : 0;
      const int p = a + b - c;
      const int nearest = std::abs(p - a) <= std::abs(p - b) && std::abs(p - a) <= std::abs(p - c)
                              ? a
                          : std::abs(p - b) <= std::abs(p - c) ? b
                                                               : c;
      const std::array<int, 5> predicted = {0, a, b, (a + b) / 2, nearest};
      out += static_cast<unsigned char>(rows[start + i] - predicted[filter]);
    }
  }
  return out;
}

TEST(Predictor, OfPngIsUndoneWhateverThePieces) {
  const auto predictor = predictor_from(parameters("<< /Predictor 15 /Columns 7 /Colors 3 >>"));
  ASSERT_TRUE(predictor);
  std::mt19937 random(5);
  Bytes rows;
  for (int i = 0; i < 21 * 20; ++i) rows += static_cast<unsigned char>(random());
  const std::string expected(rows.begin(), rows.end());
  for (const std::size_t piece : {1u, 5u, 22u, 1000u}) {
    EXPECT_EQ(undone(*predictor, filtered(rows, 21, 3), piece), expected) << piece;
  }
}

TEST(Predictor, OfTiffAddsThePixelToTheLeft) {
  const auto predictor = predictor_from(parameters("<< /Predictor 2 /Columns 3 /Colors 2 >>"));
  ASSERT_TRUE(predictor);
  EXPECT_EQ(undone(*predictor, {1, 2, 3, 4, 255, 1, 9, 9, 0, 0, 0, 0}, 4),
            std::string({1, 2, 4, 6, 3, 7, 9, 9, 9, 9, 9, 9}));
}

TEST(Predictor, ThatIsAgainstTheStandardIsNotUsed) {
  for (const char* text : {"<< /Predictor 3 >>", "<< /Predictor 12 /Columns 2000000000 >>",
                           "<< /Predictor 12 /Colors 0 >>", "<< /Predictor 12 /Columns (x) >>",
                           "<< /Predictor 12 /BitsPerComponent 5 >>", "[]", "7"}) {
    EXPECT_FALSE(predictor_from(parameters(text))) << text;
  }
  EXPECT_FALSE(predictor_from(parameters("null"))->needed());
}

std::string unpacked(const Bytes& codes, bool early_change = true) {
  std::string out;
  Pl_String collect("collect", nullptr, out);
  Lzw lzw(early_change, &collect);
  for (const unsigned char byte : codes) lzw.write(&byte, 1);
  lzw.finish();
  return out;
}

// Source  ISO 32000-1, 7.4.4.2, example 1.
TEST(LzwStream, OfTheStandardIsUnpacked) {
  const Bytes codes = {0x80, 0x0B, 0x60, 0x50, 0x22, 0x0C, 0x0C, 0x85, 0x01};
  EXPECT_EQ(unpacked(codes), std::string("-----A---B"));
}

/// Written from the standard, the other way round: greedy, a clear code when the table is full.
Bytes lzw_packed(const std::string& text, bool early_change) {
  Bytes out;
  unsigned held = 0;
  std::uint32_t bits = 0;
  unsigned width = 9;
  const auto put = [&](unsigned code) {
    bits = bits << width | code;
    held += width;
    while (held >= 8) {
      held -= 8;
      out += static_cast<unsigned char>(bits >> held);
      bits &= (1U << held) - 1;
    }
  };
  std::map<std::string, unsigned> table;
  unsigned next = 0;
  const auto clear = [&] {
    put(256);
    table.clear();
    for (unsigned c = 0; c < 256; ++c) table[std::string(1, static_cast<char>(c))] = c;
    next = 258;
    width = 9;
  };
  clear();
  std::string known;
  for (const char c : text) {
    if (table.contains(known + c)) {
      known += c;
      continue;
    }
    put(table.at(known));
    table[known + c] = next++;
    // The reader's table is one entry behind.
    if (next - 1 + (early_change ? 1 : 0) >= 1U << width && width < 12) ++width;
    known = c;
    if (next == 4094) {
      put(table.at(known));
      known.clear();
      clear();
    }
  }
  if (!known.empty()) put(table.at(known));
  put(257);
  if (held > 0) out += static_cast<unsigned char>(bits << (8 - held));
  return out;
}

TEST(LzwStream, OfAnyLengthIsUnpackedWithBothWaysToCount) {
  std::mt19937 random(7);
  for (const std::size_t length : {0u, 1u, 300u, 5000u, 60000u}) {
    for (const unsigned letters : {1u, 3u, 256u}) {
      std::string text;
      for (std::size_t i = 0; i < length; ++i) text += static_cast<char>(random() % letters);
      for (const bool early : {true, false}) {
        EXPECT_EQ(unpacked(lzw_packed(text, early), early), text) << length << " " << letters;
      }
    }
  }
}

TEST(LzwStream, WithACodeThatCannotBeIsRefused) {
  EXPECT_THROW(unpacked({0x80, 0x7F, 0xFF, 0xFF}), std::runtime_error);
}

}  // namespace
}  // namespace versolay
