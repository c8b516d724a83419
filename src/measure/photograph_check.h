// Rejects photographs that cannot be read.
#pragma once

#include <optional>

#include "measure/camera_map.h"
#include "versolay/paper.h"
#include "versolay/result.h"

namespace versolay {

/// @return a refusal with one of the codes photograph_too_small, photograph_askew,
///         photograph_not_flat.
std::optional<Refusal> check_photograph(const CameraMap& camera, const Paper& paper);

}  // namespace versolay
