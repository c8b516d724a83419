// The black and white modules of tags and codes. Reading them is the business of src/measure.
#pragma once

#include <string>
#include <vector>

namespace versolay {

/// A square of modules, row by row, true = black. No white margin.
struct ModuleSquare {
  int size = 0;
  std::vector<bool> black;
  bool at(int row, int column) const {
    return black[static_cast<std::size_t>(row * size + column)];
  }
};

/// 8 x 8 modules. Source: tag family 36h11 of the AprilTag library (Olson, ICRA 2011).
/// Precondition: 0 <= number < 587.
ModuleSquare tag_modules(int number);

/// 25 x 25 modules: QR Code version 2, error correction level Q (ISO/IEC 18004).
/// Precondition: at most 29 characters of the alphanumeric set.
ModuleSquare code_modules(const std::string& text);

}  // namespace versolay
