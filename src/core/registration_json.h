// Registrations and their covariances in JSON: the same format in every kind of file.
#pragma once

#include "core/finding_json.h"
#include "core/json.h"
#include "versolay/paper.h"
#include "versolay/registration.h"
#include "versolay/result.h"
#include "versolay/sheet_readings.h"

namespace versolay {

/// {"dx_mm": ..., "dy_mm": ..., "rotation_mrad": ..., "scale_x_ppm": ..., "scale_y_ppm": ...,
/// "shear_mrad": ...}, rounded to 1 nm, 1 nrad (shear, rotation: 1e-6 mrad) and 0.001 ppm.
Json json_of(const Registration& registration);

/// Reads the object above. The scales and the shear may be missing (0). Throws Error when a number
/// is missing or no sheet of paper could have it (offset beyond 100 mm, rotation or shear beyond
/// 100 mrad, scale beyond 100000 ppm).
Registration registration_at(const JsonPlace& place);

/// 6 x 6, symmetric and positive semidefinite, order and units of kRegistrationKeys.
/// Throws Error when it is not.
RegistrationMatrix covariance_at(const JsonPlace& place);

/// "printed_scale_x" and "printed_scale_y" of an object, each where it is known; 0.5 to 2.
void add_printed_scale(const PrintedScale& scale, Json& object);
PrintedScale printed_scale_at(const JsonPlace& object);

/// "turn" and "paper_mm" of a document. Throw Error when missing or impossible.
Turn turn_at(const JsonPlace& document);
Paper paper_at(const JsonPlace& document);
Json json_of(const Paper& paper);

}  // namespace versolay
