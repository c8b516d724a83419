// The black and white modules of tags and codes. Reading them is the business of src/measure.
#pragma once

#include <string>
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

/// 25 x 25 modules: QR Code version 2, error correction level Q (ISO/IEC 18004).
/// Precondition: at most 29 characters of the alphanumeric set.
ModuleGrid code_modules(const std::string& text);

/// 16 rows of 36 modules: Data Matrix ECC 200 (ISO/IEC 16022), a rectangle that fits into narrow
/// waste. Precondition: 62 to 64 decimal digits, which is what that size holds.
ModuleGrid waste_code_modules(const std::string& digits);

}  // namespace versolay
