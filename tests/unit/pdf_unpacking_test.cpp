// What a PDF may unpack to, and rows with a predictor.
#define POINTERHOLDER_TRANSITION 4
#include <gtest/gtest.h>

#include <array>
#include <cstdlib>
#include <qpdf/Pl_String.hh>
#include <random>

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

}  // namespace
}  // namespace versolay
