// The file of a printer profile: schema "versolay.profile/2".
//
//   { "schema", "printer", "feed", "stock", "quality", "turn", "paper_mm": [w, h],
//     "model": "rigid|similarity|affine", "n_feeds", "n_sheets",
//     "sessions": [{ "source", "created", "n_feeds" }],
//     "mean": {...}, "mean_feeds", "rotation_measured", "mean_covariance": 6 x 6,
//     "spread_covariance": 6 x 6, "spread_dof", "measurement_covariance": 6 x 6,
//     "constant_part_real", "tests": [{ "name", "statistic", "p_value", and a finding }],
//     "measurement_dof", "session_covariance": 6 x 6, "feeds_per_session",
//     "shares": [{ "component", "session_sd", "session_sd_high", "feed_sd", "measurement_sd",
//                  "measurement_share" }],
//     "feeds": [{ "session", "sheet", "run", "model", "registration": {...}, "robust_distance",
//                 "fed_round", "printed_scale_x", "printed_scale_y", "left_out": finding,
//                 "doubts": [code, ...], "recto_lay": {...}, and of further passes "pass",
//                 "recto_pass_lay", "verso_pass_lay" }],
//     "spread_with_left_out": 6 x 6, "heavy_tails", "robust_limit",
//     "field": { "points": [{ "id", "x_mm", "y_mm", "residual_x_mm", "residual_y_mm", "sd_mm",
//                             "n" }], "real", "p_value", "amplitude_mm", "length_mm" },
//     "history": [{ "date", and a finding }],
//     "excluded": [{ "source", "sheet", and a finding }], "warnings": [finding, ...],
//     "passes": {...} of sheets that were fed several times, studies (core/studies_json.h),
//     "created", "software" }
//
// A finding is { "code", and its facts }; version 1, which can still be read, had sentences.
//
// Order and units of the covariances: kRegistrationKeys. Signs: versolay/registration.h.
#pragma once

#include <filesystem>

#include "core/json.h"
#include "versolay/printer_profile.h"

namespace versolay {

inline constexpr int kProfileVersion = 2;

Json json_of(const PrinterProfile& profile);

/// Throws Error with the file and the JSON Pointer of the place for a document that is not a
/// profile or contradicts itself (counts, degrees of freedom, covariances, components outside the
/// model), and for versions newer than this program.
PrinterProfile profile_from(const Json& document, const std::string& file);
PrinterProfile read_profile(const std::filesystem::path& path);

}  // namespace versolay
