// The matrix code beside a tag: which sheet of which print run a page is.
#pragma once

#include <optional>

#include "measure/tags.h"
#include "target/target_geometry.h"
#include "target/waste_code.h"

namespace versolay {

/// Looks for one of our matrix codes within 32 mm of the tag of a target and reads it. nullopt when
/// none is found, when it is too dirty for its error correction, or when it contradicts the tag.
std::optional<PageIdentity> read_code_near(const GreyImage& scan, const TagSighting& tag);

/// The same for a tag in the waste of a production sheet, whose code is beside it along one of the
/// two edges of its corner.
std::optional<ProductionPage> read_waste_code_near(const GreyImage& scan, const TagSighting& tag);

}  // namespace versolay
