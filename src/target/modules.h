// The black and white modules of tags. src/measure reads them.
#pragma once

#include <vector>

namespace versolay {

/// A rectangle of modules, row by row, true = black. No white margin.
struct ModuleGrid {
  int rows = 0;
  int columns = 0;
  std::vector<bool> black;
  bool at(int row, int column) const {
    return black[static_cast<std::size_t>(row * columns + column)];
  }
};

/// The same, turned clockwise by a quarter.
ModuleGrid turned(const ModuleGrid& modules);

/// 8 x 8 modules. Source: tag family 36h11 of the AprilTag library (Olson, ICRA 2011).
/// Precondition: 0 <= number < 587.
ModuleGrid tag_modules(int number);

/// 7 x 7 modules: tag family 25h9 of the same library, for further passes.
/// Precondition: 0 <= number < 35.
ModuleGrid pass_tag_modules(int number);

}  // namespace versolay
