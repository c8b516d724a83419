// The codes of pages and of the waste against another encoder, zxing-cpp 1.4: module for module, so
// that pages printed before the program wrote its codes itself are the same pages.
#include <ZXing/BitMatrix.h>
#include <ZXing/MultiFormatWriter.h>
#include <gtest/gtest.h>

#include <random>
#include <string>

#include "target/data_matrix.h"
#include "target/qr_code.h"

namespace versolay {
namespace {

ModuleGrid grid_of(const ZXing::BitMatrix& matrix) {
  ModuleGrid modules{matrix.height(), matrix.width(), {}};
  for (int row = 0; row < modules.rows; ++row) {
    for (int column = 0; column < modules.columns; ++column) {
      modules.black.push_back(matrix.get(column, row));
    }
  }
  return modules;
}

std::string text_of(std::mt19937& random, const std::string& alphabet, std::size_t length) {
  std::uniform_int_distribution<std::size_t> pick(0, alphabet.size() - 1);
  std::string text;
  while (text.size() < length) text += alphabet[pick(random)];
  return text;
}

constexpr int kLevelQ = 5;  // on the library's scale 0..8

TEST(QrCode, IsThatOfAnotherEncoder) {
  std::mt19937 random(1);
  for (std::size_t length = 17; length <= 29; ++length) {
    for (int i = 0; i < 40; ++i) {
      // A letter first: digits alone have a shorter mode, which no text of ours has.
      const std::string text =
          "V" + text_of(random, "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789/:.-", length - 1);
      const ModuleGrid other = grid_of(ZXing::MultiFormatWriter(ZXing::BarcodeFormat::QRCode)
                                           .setEccLevel(kLevelQ)
                                           .setMargin(0)
                                           .encode(text, 0, 0));
      ASSERT_EQ(qr_modules(text).black, other.black) << text;
    }
  }
}

TEST(QrCode, RefusesWhatMakesAnotherSize) {
  EXPECT_NO_THROW(qr_modules("ABCDEFGHIJKLMNOPQ"));
  EXPECT_THROW(qr_modules("ABCDEFGHIJKLMNOP"), std::logic_error);
  EXPECT_THROW(qr_modules(std::string(30, 'A')), std::logic_error);
  EXPECT_THROW(qr_modules("ABCDEFGHIJKLMNOPq"), std::logic_error);
}

TEST(DataMatrix, IsThatOfAnotherEncoder) {
  std::mt19937 random(2);
  for (std::size_t length = 61; length <= 64; ++length) {
    for (int i = 0; i < 40; ++i) {
      const std::string digits = text_of(random, "0123456789", length);
      const ModuleGrid other = grid_of(ZXing::MultiFormatWriter(ZXing::BarcodeFormat::DataMatrix)
                                           .setMargin(0)
                                           .encode(digits, 0, 0));
      ASSERT_EQ(other.rows, 16);
      ASSERT_EQ(data_matrix_modules(digits).black, other.black) << digits;
    }
  }
}

TEST(DataMatrix, RefusesWhatMakesAnotherSize) {
  EXPECT_THROW(data_matrix_modules(std::string(60, '1')), std::logic_error);
  EXPECT_THROW(data_matrix_modules(std::string(65, '1')), std::logic_error);
  EXPECT_THROW(data_matrix_modules(std::string(62, 'A')), std::logic_error);
}

}  // namespace
}  // namespace versolay
