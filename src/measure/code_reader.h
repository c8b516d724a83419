// The reader of matrix codes: natively a library, in a browser a second one.
#pragma once

#include <optional>
#include <string>

#include "scan/scan.h"

namespace versolay {

enum class CodeKind { qr, data_matrix };

/// The text of the one code in the picture, in any of four orientations; characters beyond ASCII
/// become '?': our codes have none. nullopt when no code is found, or error correction fails.
std::optional<std::string> text_of_code(const GreyImage& picture, CodeKind kind);

}  // namespace versolay
