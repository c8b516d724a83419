// The findings of this room.
#pragma once

#include "versolay/finding.h"

namespace versolay::findings {

inline const Kind<Length> gutter_out_of_range{"gutter_out_of_range", {"gutter_mm"}};
inline const Kind<Length> margin_out_of_range{"margin_out_of_range", {"margin_mm"}};
inline const Kind<std::int64_t> blocks_out_of_range{"blocks_out_of_range", {"blocks"}};
inline const Kind<std::int64_t, std::int64_t, std::string> grid_not_halved{
    "grid_not_halved", {"columns", "rows", "paper"}};
inline const Kind<Length, Length> card_size_out_of_range{"card_size_out_of_range",
                                                         {"width_mm", "height_mm"}};
inline const Kind<std::int64_t, std::int64_t> grid_shape_out_of_range{"grid_shape_out_of_range",
                                                                      {"columns", "rows"}};
inline const Kind<Length, Length, Length, Length, Length, std::string> no_card_fits{
    "grid_too_large",
    {"width_mm", "height_mm", "bleed_mm", "room_width_mm", "room_height_mm", "paper"}};
inline const Kind<std::int64_t, std::int64_t, Length, Length, Length, Length, Length, Length,
                  std::string>
    block_too_large{"grid_too_large",
                    {"columns", "rows", "width_mm", "height_mm", "width_on_side_mm",
                     "height_on_side_mm", "room_width_mm", "room_height_mm", "paper"}};
inline const Kind<Term, Length, Length> oversize_reduced{"oversize_reduced",
                                                         {"where", "wanted_mm", "granted_mm"}};
inline const Kind<Length, Term> block_moved{"block_moved", {"by_mm", "way"}};
inline const Kind<Length, Term, Length, Term> block_moved_both_ways{
    "block_moved", {"across_mm", "across", "along_mm", "along"}};
inline const Kind<Term, Length, std::string> too_wide_to_print{"not_printable",
                                                               {"cards", "too_wide_mm", "paper"}};
inline const Kind<Term, Length, std::string> too_high_to_print{"not_printable",
                                                               {"cards", "too_high_mm", "paper"}};
inline const Kind<Term, Length, Length, std::string> too_large_to_print{
    "not_printable", {"cards", "too_wide_mm", "too_high_mm", "paper"}};
inline const Kind<> cut_halving{"cut_halving", {}};
inline const Kind<Term> cut_first_edge{"cut_first_edge", {"edge"}};
inline const Kind<Term> cut_second_edge{"cut_second_edge", {"edge"}};
inline const Kind<Term> cut_opposite_edge{"cut_opposite_edge", {"edge"}};
inline const Kind<Term, std::int64_t> cut_far_side{"cut_far_side", {"piece", "number"}};
inline const Kind<Term, std::int64_t> cut_near_side{"cut_near_side", {"piece", "number"}};
inline const Kind<Term, std::int64_t, std::int64_t> cut_between{"cut_between",
                                                                {"piece", "number", "next"}};
inline const Kind<> cut_in_waste{"cut_in_waste", {}};
inline const Kind<> cut_along_the_guides{"cut_along_the_guides", {}};
inline const Kind<std::int64_t> cut_square_to{"cut_square_to", {"cut"}};
inline const Kind<> cut_to_check{"cut_to_check", {}};

}  // namespace versolay::findings
