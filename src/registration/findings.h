// The findings of this room about a sheet.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "versolay/finding.h"

namespace versolay::findings {

// The files and sides of a sheet.
inline const Kind<std::string> copy{"copy", {"original"}};
inline const Kind<> given_twice{"copy", {}};
inline const Kind<std::string, Term> other_target{"other_target", {"paper", "turn"}};
/// What went wrong inside the program, in its own words.
inline const Kind<std::string> sheet_fault{"sheet_fault", {"fault"}};
/// side, missing: "front" or "back".
inline const Kind<Term, Term> other_side_missing{"other_side_missing", {"side", "missing"}};
inline const Kind<Term, std::string, std::string> same_side_twice{"same_side_twice",
                                                                  {"side", "scan", "other_scan"}};
inline const Kind<std::int64_t> wrong_back{"wrong_back", {"back_of_sheet"}};
/// where: "upper", "lower", "left" or "right"; amount: "part" or "half".
inline const Kind<Term, Term, Term> half_missing{"half_missing", {"where", "amount", "side"}};
inline const Kind<Term, std::vector<std::string>, Length> two_sheets_of_one_number{
    "not_same_sheet", {"side", "scans", "off_mm"}};
inline const Kind<Length, Term, std::vector<std::string>> scanner_stretches{
    "scanner_stretches", {"off_mm", "side", "scans"}};
inline const Kind<Length, Term, std::vector<std::string>> repeat_differs{
    "repeat_differs", {"off_mm", "side", "scans"}};
/// cause: "enlarged", "shrunk" or "mixed".
inline const Kind<Term, Share, Share, Term> printed_scale{
    "printed_scale", {"side", "width_share", "height_share", "cause"}};
inline const Kind<> printed_scale_unknown{"printed_scale_unknown", {}};
inline const Kind<std::int64_t> fed_round_not_read{"fed_round_not_read", {"sheet_named"}};

// Why there is nothing to pair.
inline const Kind<> edge_contrast{"edge_contrast", {}};
inline const Kind<> edges_not_shown{"edges_cut_off", {}};
inline const Kind<std::vector<std::string>, Term> edges_cut_off{"edges_cut_off", {"edges", "side"}};
inline const Kind<> hole_contrast{"hole_contrast", {}};
inline const Kind<> holes_cut_off{"holes_cut_off", {}};
inline const Kind<> holes_outside{"holes_outside", {}};
inline const Kind<> holes_unreadable{"holes_unreadable", {}};
inline const Kind<> white_background{"white_background", {}};
inline const Kind<> no_holes{"no_holes", {}};
/// datum: "holes" or "edges".
inline const Kind<Term> too_few_features{"too_few_features", {"datum"}};

// Holes and edges, front against back.
inline const Kind<std::string, Length> hole_off{"hole_off", {"hole", "off_mm"}};
inline const Kind<std::string, Length> hole_left_out{"hole_left_out", {"hole", "off_mm"}};
/// seen, blind: "front" or "back".
inline const Kind<std::string, Term, std::string> hole_on_one_side{"hole_on_one_side",
                                                                   {"hole", "seen", "blind_scan"}};
/// reason: the name of a HoleMiss.
inline const Kind<std::string, std::string, Term> hole_unreadable{"hole_unreadable",
                                                                  {"hole", "scan", "reason"}};
inline const Kind<std::string, Length> hole_shapes_differ{"hole_shapes_differ",
                                                          {"hole", "differ_mm"}};
inline const Kind<Length> holes_disagree{"holes_disagree", {"rms_mm"}};
inline const Kind<> not_same_sheet{"not_same_sheet", {}};
inline const Kind<Term, Term> wrong_turn{"wrong_turn", {"turn", "other_turn"}};
/// edge: "left", "right", "top" or "bottom", seen from the back.
inline const Kind<Term, Length> edges_disagree{"edges_disagree", {"edge", "rms_mm"}};
inline const Kind<Term, Length, Length> edges_too_far_apart{"edges_disagree",
                                                            {"edge", "rms_mm", "limit_mm"}};
inline const Kind<std::int64_t, Length> edge_places_left_out{"edge_places_left_out",
                                                             {"places", "most_mm"}};
inline const Kind<Length> edges_rough{"edges_left_out", {"rms_mm"}};
inline const Kind<> edges_of_another_size{"edges_left_out", {}};
/// larger: "wider", "narrower", "longer" or "shorter", seen from the back.
inline const Kind<Length, Term> paper_size_differs{"paper_size_differs", {"off_mm", "larger"}};
inline const Kind<Length> holes_against_edges{"holes_against_edges", {"off_mm"}};
inline const Kind<Length, Length, Angle> datums_disagree{"datums_disagree",
                                                         {"across_mm", "down_mm", "rotation_mrad"}};
inline const Kind<Length, Length> offset_too_large{"offset_too_large", {"offset_mm", "limit_mm"}};
inline const Kind<Angle> sheared{"shape_implausible", {"shear_mrad"}};
inline const Kind<Share> stretched{"shape_implausible", {"stretch_share"}};

// Why the sheet was read by what it was read by.
inline const Kind<> no_edges_read{"no_edges_read", {}};
inline const Kind<> no_holes_read{"no_holes_read", {}};
inline const Kind<> datum_asked_for{"datum_asked_for", {}};
inline const Kind<> edges_not_followed{"edges_not_followed", {}};
inline const Kind<Length, Length, Length> holes_and_edges_agree{
    "holes_and_edges_agree", {"holes_95_mm", "edges_95_mm", "together_95_mm"}};
inline const Kind<Length> pin_leaned{"pin_leaned", {"lean_mm"}};
inline const Kind<std::int64_t> read_on_nets{"read_by_eye", {"holes"}};
inline const Kind<std::int64_t> read_on_scales{"read_by_eye", {"scales"}};
inline const Kind<> given_as_values{"read_by_eye", {}};

// Readings by eye.
inline const Kind<std::string, Length> misread{"reading_off", {"place", "slip_mm"}};
inline const Kind<std::string, Length> reading_off{"reading_off", {"place", "off_mm"}};
inline const Kind<std::string, Length> misread_left_out{"reading_left_out", {"place", "slip_mm"}};
inline const Kind<std::string, Length> reading_left_out{"reading_left_out", {"place", "off_mm"}};
inline const Kind<Length> readings_disagree{"readings_disagree", {"rms_mm"}};
inline const Kind<Length, Length> readings_contradict{"readings_disagree", {"rms_mm", "limit_mm"}};
inline const Kind<> readings_unchecked{"readings_unchecked", {}};
/// method: "holes" or "scales".
inline const Kind<Term> too_few_readings{"too_few_readings", {"method"}};
/// component: "dx_mm", "dy_mm" or "rotation_mrad".
inline const Kind<Term> sign_swapped{"sign_swapped", {"component"}};
inline const Kind<std::int64_t, std::int64_t, std::string> row_incomplete{
    "row_incomplete", {"row", "sheet_named", "place"}};

inline const Kind<> no_titles{"no_titles", {}};
inline const Kind<std::int64_t> unknown_titles{"unknown_titles", {"row"}};
inline const Kind<std::string> table_setting_missing{"table_setting_missing", {"setting"}};
inline const Kind<std::string, std::string> table_setting_unknown{"table_setting_unknown",
                                                                  {"setting", "value"}};
inline const Kind<std::string, std::string> table_setting_differs{"table_setting_differs",
                                                                  {"setting", "value"}};
inline const Kind<std::int64_t> back_of_other_sheet{"back_of_other_sheet", {"back"}};
inline const Kind<> back_among_fronts{"back_among_fronts", {}};
inline const Kind<> front_photographed{"front_photographed", {}};
inline const Kind<> not_a_pass{"not_a_pass", {}};
inline const Kind<> not_two_numbers{"not_two_numbers", {}};
inline const Kind<> not_a_sheet_kind{"not_a_sheet_kind", {}};
inline const Kind<> correction_missing{"correction_missing", {}};
inline const Kind<> correction_unexpected{"correction_unexpected", {}};
inline const Kind<> not_a_sheet_number{"not_a_sheet_number", {}};
inline const Kind<std::int64_t> row_too_long{"row_too_long", {"row"}};
inline const Kind<std::int64_t> row_without_sheet{"row_without_sheet", {"row"}};
inline const Kind<std::int64_t, Term, std::string, std::string, std::string> row_place_unknown{
    "row_place_unknown", {"row", "kind", "place", "first", "last"}};
inline const Kind<std::int64_t, std::int64_t, std::string> row_twice{
    "row_twice", {"row", "sheet_named", "place"}};
inline const Kind<std::int64_t, std::string, std::string> cell_not_a_number{
    "cell_not_a_number", {"row", "column", "cell"}};
inline const Kind<std::int64_t, std::string, double, double, double> number_off_the_scale{
    "number_off_the_scale", {"row", "column", "number", "least", "most"}};
inline const Kind<std::int64_t, std::string, double, double, double, std::string>
    number_of_another_column{"number_of_another_column",
                             {"row", "column", "number", "least", "most", "other_column"}};

}  // namespace versolay::findings
