// The file readings.json: schema "versolay.readings/2".
//
//   { "schema", "turn", "paper_mm": [w, h], "created", "software",
//     "sheets": [{ "sheet", "run", "kind": "target" | "production", "correction_applied": {...},
//                  "registration": {...}, "covariance": 6 x 6, "model", "datum",
//                  "datum_notes": [finding, ...], "residual_rms_mm",
//                  "features": [{ "id", "x_mm", "y_mm", "ex_mm", "ey_mm", "sd_mm",
//                                 "residual_x_mm", "residual_y_mm" }],
//                  "recto": { "printed_scale_x", "printed_scale_y" }, "verso": {...},
//                  "repeats": [registration, ...], "fed_round": true,
//                  "photographed": true,
//                  "files": [...], "warnings": [finding, ...] }],
//     "rejected": [{ "file", "files", "sheet", and a finding }],
//     "gauge", "other_turn", "fed_round": studies of all sheets together; see
//     versolay/study_results.h }
//
// A finding is { "code", and its facts: "off_mm", "hole" ... }; version 1, which can still be read,
// had sentences ("message", "datum_reason").
//
// correction_applied: production sheets only; registration is then the remaining error (see
// SheetReading::correction). Frames and signs: versolay/registration.h. Features are in the verso
// view.
#pragma once

#include <filesystem>

#include "core/json.h"
#include "versolay/sheet_readings.h"

namespace versolay {

inline constexpr int kReadingsVersion = 2;

Json json_of(const Readings& readings);

/// Throws Error with the file and the place in it for anything that cannot be a reading.
/// `sheets` with `sheet` and `registration` must be there; whatever else is missing is unknown:
/// no covariance means 0, a missing model is inferred from the components that are not 0.
Readings readings_from(const Json& document, const std::string& file);
Readings read_readings(const std::filesystem::path& path);

}  // namespace versolay
