// Hands with an office punch or a pin.
#pragma once

#include <vector>

#include "rehearse/hole_view.h"
#include "rehearse/passes.h"
#include "rehearse/settings.h"
#include "rehearse/simulation_random.h"

namespace versolay::rehearse {

/// Makes the holes of one printed sheet at the places printed on its front, as well as hands can.
/// Two punched places `punch_distance_mm` apart are made by one stroke and keep that distance.
std::vector<Hole> make_holes(const std::vector<HolePlace>& places, const Passes& passes,
                             const HoleSettings& settings, Random random);

}  // namespace versolay::rehearse
