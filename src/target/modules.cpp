#include "target/modules.h"

#include <apriltag/apriltag.h>
#include <apriltag/tag25h9.h>
#include <apriltag/tag36h11.h>

#include <memory>

#include "core/expect.h"

namespace versolay {
namespace {

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

}  // namespace versolay
