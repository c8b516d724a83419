// QR codes of the one size that the target has.
#pragma once

#include <string>

#include "target/modules.h"

namespace versolay {

/// 25 x 25 modules: QR Code version 2, error correction level Q (ISO/IEC 18004), alphanumeric.
/// Precondition: 17 to 29 characters of the alphanumeric set; throws std::logic_error otherwise.
ModuleGrid qr_modules(const std::string& text);

}  // namespace versolay
