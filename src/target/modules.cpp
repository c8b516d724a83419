#include "target/modules.h"

#include <ZXing/BitMatrix.h>
#include <ZXing/MultiFormatWriter.h>
#include <apriltag/apriltag.h>
#include <apriltag/tag25h9.h>
#include <apriltag/tag36h11.h>

#include <memory>
#include <stdexcept>

#include "core/expect.h"

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

ModuleGrid modules_of(apriltag_family_t& family, int number) {
  expect(number >= 0 && number < static_cast<int>(family.ncodes));
  const std::unique_ptr<image_u8_t, decltype(&image_u8_destroy)> image(
      apriltag_to_image(&family, number), &image_u8_destroy);
  const int margin = (family.total_width - family.width_at_border) / 2;
  ModuleGrid modules{family.width_at_border, family.width_at_border, {}};
  for (int row = 0; row < modules.rows; ++row) {
    for (int column = 0; column < modules.columns; ++column) {
      modules.black.push_back(image->buf[(row + margin) * image->stride + column + margin] == 0);
    }
  }
  return modules;
}

}  // namespace

ModuleGrid turned(const ModuleGrid& modules) {
  ModuleGrid turned{modules.columns, modules.rows, {}};
  for (int row = 0; row < turned.rows; ++row) {
    for (int column = 0; column < turned.columns; ++column) {
      turned.black.push_back(modules.at(modules.rows - 1 - column, row));
    }
  }
  return turned;
}

ModuleGrid tag_modules(int number) {
  const std::unique_ptr<apriltag_family_t, decltype(&tag36h11_destroy)> family(tag36h11_create(),
                                                                               &tag36h11_destroy);
  return modules_of(*family, number);
}

ModuleGrid pass_tag_modules(int number) {
  const std::unique_ptr<apriltag_family_t, decltype(&tag25h9_destroy)> family(tag25h9_create(),
                                                                              &tag25h9_destroy);
  return modules_of(*family, number);
}

ModuleGrid code_modules(const std::string& text) {
  constexpr int kLevelQ = 5;  // the library's scale 0..8: 0-1 L, 2-3 or so M, 4-6 Q, 7-8 H
  constexpr int kVersion2 = 25;
  ModuleGrid modules = grid_of(ZXing::MultiFormatWriter(ZXing::BarcodeFormat::QRCode)
                                   .setEccLevel(kLevelQ)
                                   .setMargin(0)
                                   .encode(text, 0, 0));
  if (modules.columns != kVersion2) {
    throw std::logic_error("the text \"" + text + "\" does not make a code of 25 modules");
  }
  return modules;
}

ModuleGrid waste_code_modules(const std::string& digits) {
  ModuleGrid modules = grid_of(
      ZXing::MultiFormatWriter(ZXing::BarcodeFormat::DataMatrix).setMargin(0).encode(digits, 0, 0));
  if (modules.rows != 16 || modules.columns != 36) {
    throw std::logic_error("the digits " + digits + " do not make a code of 16 x 36 modules");
  }
  return modules;
}

}  // namespace versolay
