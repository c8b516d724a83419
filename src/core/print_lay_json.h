// The position of a print on its paper, in JSON: the same format in every kind of file.
#pragma once

#include "core/json.h"
#include "versolay/sheet_readings.h"

namespace versolay {

/// {"dx_mm", "dy_mm", "rotation_mrad", "paper_width_mm", "paper_height_mm", "covariance": 3 x 3}
Json json_of(const PrintLay& lay);

/// Reads the object above; a missing covariance is 0. Throws Error when a number is missing or no
/// sheet of paper could have it, or when a variance is negative.
PrintLay print_lay_at(const JsonPlace& place);

}  // namespace versolay
