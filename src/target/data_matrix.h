// Data Matrix codes of the one size that fits into the waste of a sheet.
#pragma once

#include <string>

#include "target/modules.h"

namespace versolay {

/// 16 rows of 36 modules: Data Matrix ECC 200 (ISO/IEC 16022).
/// Precondition: 61 to 64 decimal digits; throws std::logic_error otherwise.
ModuleGrid data_matrix_modules(const std::string& digits);

}  // namespace versolay
