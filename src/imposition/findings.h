// The findings of this room about cards, artwork and sheets.
#pragma once

#include "versolay/finding.h"

namespace versolay::findings {

inline const Kind<std::string> folder_not_listed{"folder_not_listed", {"reason"}};
inline const Kind<> folder_without_art{"folder_without_art", {}};
inline const Kind<std::string, std::string> no_back_of_group{"no_back_of_group",
                                                             {"name", "fronts"}};
inline const Kind<> no_cards{"no_cards", {}};
inline const Kind<> card_without_back{"card_without_back", {}};
inline const Kind<> neither_art_nor_list{"neither_art_nor_list", {}};
inline const Kind<> list_is_empty{"list_is_empty", {}};
inline const Kind<std::string> not_a_thickness{"not_a_thickness", {"text"}};
inline const Kind<> edge_colour_unreadable{"edge_colour_unreadable", {}};
inline const Kind<> guides_incomplete{"guides_incomplete", {}};
inline const Kind<> no_slug{"no_slug", {}};
inline const Kind<> preview_not_possible{"no_preview", {}};
inline const Kind<std::int64_t, std::int64_t> backs_do_not_match{"backs_do_not_match",
                                                                 {"fronts", "backs"}};
inline const Kind<std::int64_t, std::string> unknown_column{"unknown_column", {"line", "column"}};
inline const Kind<std::int64_t, std::string> column_twice{"column_twice", {"line", "column"}};
inline const Kind<std::int64_t> no_column_front{"no_column_front", {"line"}};
inline const Kind<std::int64_t, std::int64_t, std::int64_t> too_many_fields{
    "too_many_fields", {"line", "fields", "columns"}};
inline const Kind<std::int64_t, std::string, std::int64_t> not_a_quantity{
    "not_a_quantity", {"line", "quantity", "most"}};
inline const Kind<std::int64_t> line_without_front{"line_without_front", {"line"}};
inline const Kind<std::int64_t, std::int64_t> too_many_cards{"too_many_cards", {"line", "most"}};
inline const Kind<std::int64_t, std::string, std::string, std::string> listed_file_missing{
    "listed_file_missing", {"line", "column", "name", "looked_for"}};
inline const Kind<std::int64_t> too_many_sheets_for_marks{"no_registration_marks", {"most_sheets"}};
inline const Kind<> no_room_for_marks{"no_registration_marks", {}};
inline const Kind<double, std::int64_t, std::int64_t, Term, std::string, double, std::int64_t,
                  std::int64_t, double>
    low_resolution{"low_resolution",
                   {"wanted_ppi", "coarse", "images", "side", "coarsest", "lowest_ppi", "width_px",
                    "height_px", "accepted_ppi"}};
inline const Kind<std::int64_t, std::int64_t, Term, std::string, Share, Term, Length, Length,
                  std::int64_t, std::int64_t, double, Term>
    wrong_aspect{"wrong_aspect",
                 {"misshapen", "images", "side", "worst", "off_share", "way", "width_mm",
                  "height_mm", "width_px", "height_px", "wanted_ppi", "fit"}};
inline const Kind<std::int64_t, std::int64_t, Term, std::string, double, double> like_bleed{
    "like_bleed", {"like_bleed", "images", "side", "largest", "beyond_px", "wanted_ppi"}};
inline const Kind<std::int64_t, Term> white_edge{"white_edge", {"backs", "which"}};
/// where: "gutter" or "cut".
inline const Kind<Length, Length, Term> inner_edges{"inner_edges",
                                                    {"oversize_mm", "gutter_needed_mm", "where"}};
/// Of what inner_edges says, how many cards should be clean: on average, and at least, so sure.
inline const Kind<Length, Length, Term, Share, Share, Share> inner_edges_share{
    "inner_edges_share",
    {"oversize_mm", "gutter_needed_mm", "where", "good_share", "sure_share", "confidence_share"}};
inline const Kind<std::int64_t, Length, Length> art_ends_early{"art_ends_early",
                                                               {"page", "reach_mm", "wanted_mm"}};
inline const Kind<std::string, Length, Length, Length, Length> narrow_edge{
    "narrow_edge", {"back", "band_mm", "oversize_mm", "band_needed_mm", "gutter_needed_mm"}};
inline const Kind<Length, std::int64_t, std::int64_t> bleed_costs_cards{
    "bleed_costs_cards", {"bleed_mm", "without", "cards"}};
inline const Kind<double> laminated_scale_impossible{"laminated_scale_impossible", {"scale"}};
inline const Kind<Length> ticks_out_of_range{"ticks_out_of_range", {"ticks_mm"}};
inline const Kind<> preview_needs_profile{"preview_needs_profile", {}};
inline const Kind<> fitting_needs_profile{"fitting_needs_profile", {}};
inline const Kind<> no_fronts{"no_fronts", {}};
inline const Kind<std::string, Term> fronts_of_another_layout{"fronts_of_another_layout",
                                                              {"paper", "turn"}};
inline const Kind<std::vector<std::string>> fronts_of_several_runs{"fronts_of_several_runs",
                                                                   {"runs"}};
inline const Kind<std::int64_t, std::int64_t> front_beyond_deck{"front_beyond_deck",
                                                                {"sheet", "sheets"}};
inline const Kind<std::int64_t> fronts_laid_out_differently{"fronts_laid_out_differently",
                                                            {"sheet"}};
inline const Kind<Length, Length> fitting_does_not_pay{"fitting_does_not_pay",
                                                       {"fitted_mm", "ordinary_mm"}};
inline const Kind<std::vector<std::string>> sheets_not_fitted{"sheets_not_fitted", {"sheets"}};
inline const Kind<> no_profile{"no_profile", {}};

}  // namespace versolay::findings
