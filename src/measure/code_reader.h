// The reader of matrix codes: natively a library, in a browser a second one.
#pragma once

#include <optional>
#include <string>

#include "scan/scan.h"

namespace versolay {

enum class CodeKind { qr, data_matrix };

/// The text of the one code in the picture, in any of four orientations; characters beyond ASCII
/// are '?': no code of ours has any. nullopt when there is none that its error correction mends.
std::optional<std::string> text_of_code(const GreyImage& picture, CodeKind kind);

}  // namespace versolay
