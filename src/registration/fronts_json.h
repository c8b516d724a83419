// The file fronts.json: schema "versolay.fronts/1".
//
//   { "schema", "turn", "paper_mm": [w, h], "created", "software",
//     "fronts": [{ "sheet", "run", "lay": { "dx_mm", "dy_mm", "rotation_mrad", "paper_width_mm",
//                  "paper_height_mm", "covariance": 3 x 3 },
//                  "printed_scale_x", "printed_scale_y", "correction_of_job": registration,
//                  "files", "warnings": [finding, ...] }],
//     "rejected": [{ "file", "files", "sheet", and a finding }] }
//
// The lay is the position of the print on its paper, in the recto view.
#pragma once

#include <filesystem>

#include "core/fronts.h"
#include "core/json.h"

namespace versolay {

inline constexpr int kFrontsVersion = 1;

Json json_of(const Fronts& fronts);

/// Throws Error with the file and the place in it for anything that cannot be such a document.
Fronts fronts_from(const Json& document, const std::string& file);
Fronts read_fronts(const std::filesystem::path& path);

}  // namespace versolay
