// The position of a print on its paper.
#pragma once

#include <optional>

#include "registration/paired_features.h"
#include "versolay/sheet_readings.h"

namespace versolay {

/// From the edges of one side. @return nullopt unless all four edges were read, two places or more
/// on each.
std::optional<PrintLay> print_lay_of(const CombinedFeatures& side);

}  // namespace versolay
