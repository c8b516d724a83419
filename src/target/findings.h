// The findings of this room.
#pragma once

#include "versolay/finding.h"

namespace versolay::findings {

inline const Kind<> not_an_anchor{"not_an_anchor", {}};
inline const Kind<> too_few_rings{"too_few_rings", {}};
inline const Kind<> not_an_edge{"not_an_edge", {}};
inline const Kind<> not_a_mark_number{"not_a_mark_number", {}};
inline const Kind<> not_a_hole_kind{"not_a_hole_kind", {}};
inline const Kind<> not_a_way_inward{"not_a_way_inward", {}};
inline const Kind<> not_a_scale_direction{"not_a_scale_direction", {}};
inline const Kind<> wrong_number_of_tags{"wrong_number_of_tags", {}};
inline const Kind<> no_room_for_passes{"no_room_for_passes", {}};
inline const Kind<Length, Length, Length, Length> paper_not_fit_for_target{
    "paper_not_fit_for_target",
    {"least_width_mm", "least_height_mm", "most_width_mm", "most_height_mm"}};

}  // namespace versolay::findings
