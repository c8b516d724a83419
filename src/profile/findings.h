// The findings of this room about a printer and the sheets behind its profile.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "versolay/finding.h"

namespace versolay::findings {

// Reasons for refusing a profile, advice, comparison or check.
inline const Kind<> no_readings_given{"no_sheets", {}};
inline const Kind<std::string> nothing_was_read{"no_sheets", {"source"}};
inline const Kind<std::int64_t> all_left_out{"no_sheets", {"sheets_left_out"}};
inline const Kind<std::int64_t> nothing_to_check{"no_sheets", {"new_sheets"}};
/// turn: "long-edge" or "short-edge".
inline const Kind<std::string, std::string, Term, std::string, std::string, Term> mixed_setups{
    "mixed_setups", {"source", "paper", "turn", "other_source", "other_paper", "other_turn"}};
inline const Kind<std::string, std::int64_t> sheet_twice_in_a_file{"duplicate_sheet",
                                                                   {"source", "sheet"}};
inline const Kind<std::string, std::int64_t, std::string, std::string> sheet_in_two_files{
    "duplicate_sheet", {"source", "sheet", "run", "other_source"}};
inline const Kind<std::int64_t> no_such_sheet{"no_such_sheet", {"sheet"}};
inline const Kind<std::int64_t, std::string> no_such_sheet_in_file{"no_such_sheet",
                                                                   {"sheet", "source"}};
inline const Kind<std::int64_t, std::int64_t> ambiguous_sheet{"ambiguous_sheet",
                                                              {"sheet", "files"}};
inline const Kind<std::int64_t> too_few_sheets{"too_few_sheets", {"feeds"}};
inline const Kind<std::string> one_sheet_only{"too_few_sheets", {"set_up"}};
inline const Kind<> no_spread_at_all{"no_spread", {}};
inline const Kind<std::int64_t> spread_not_known{"spread_unknown", {"feeds"}};
inline const Kind<> no_feeds_kept{"no_feeds", {}};
inline const Kind<std::string> no_feeds_to_pair{"no_feeds", {"set_up"}};
inline const Kind<std::string, std::string, std::string, std::string> mixed_papers{
    "mixed_papers", {"set_up", "paper", "other_set_up", "other_paper"}};
inline const Kind<std::string, std::int64_t, std::string, std::int64_t> not_paired{
    "not_paired", {"set_up", "sheets", "other_set_up", "other_sheets"}};

// What the tests of the readings say. The names of the tests: ProfileTest::name.
inline const Kind<> sessions_agree{"sessions_agree", {}};
inline const Kind<> sessions_are_enough{"sessions_are_enough", {}};
inline const Kind<> sessions_moved{"sessions_moved", {}};
inline const Kind<> constant_part_real{"constant_part_real", {}};
inline const Kind<> constant_part_may_be_luck{"constant_part_may_be_luck", {}};
/// component: "dx_mm", "dy_mm" or "rotation_mrad".
inline const Kind<Share, Term> measurement_in_the_spread{"measurement_in_the_spread",
                                                         {"share", "component"}};
inline const Kind<Length> print_is_bent{"print_is_bent", {"amplitude_mm"}};
inline const Kind<> print_is_not_bent{"print_is_not_bent", {}};
inline const Kind<> some_feed_stands_out{"some_feed_stands_out", {}};
inline const Kind<> no_feed_stands_out{"no_feed_stands_out", {}};
inline const Kind<> feeds_not_normal{"feeds_not_normal", {}};
inline const Kind<> feeds_normal{"feeds_normal", {}};

// Remarks on a profile.
inline const Kind<> spread_unknown{"spread_unknown", {}};
inline const Kind<std::int64_t, std::int64_t> fronts_not_read{"fronts_not_read",
                                                              {"sheets", "fewest_sheets"}};
inline const Kind<> rotation_not_measured{"rotation_not_measured", {}};
inline const Kind<Angle> rotation_allowed_for{"rotation_allowed_for", {"sd_mrad"}};
inline const Kind<std::vector<std::string>> sheets_known{"sheets_known", {"sheets"}};
inline const Kind<> looks_corrected{"looks_corrected", {}};
inline const Kind<std::int64_t> few_sheets{"few_sheets", {"feeds"}};
inline const Kind<Term> no_spread{"no_spread", {"component"}};
inline const Kind<Share, Term> coarse_measurement{"coarse_measurement", {"share", "component"}};
inline const Kind<Share, Term, Term> coarse_reading_by_eye{"coarse_measurement",
                                                           {"share", "component", "read_by"}};
inline const Kind<std::int64_t, std::int64_t> sessions_differ{"sessions_differ",
                                                              {"sessions", "enough_sessions"}};
inline const Kind<Term> mixed_models{"mixed_models", {"model"}};
inline const Kind<> heavy_tails{"heavy_tails", {}};
inline const Kind<std::int64_t, std::string, double, double> stands_out_together{
    "sheet_stands_out_together", {"sheet", "source", "distance", "limit"}};

// Sheets that were left out, or are conspicuous; doubts are codes of findings.
inline const Kind<std::string> left_out_by_user{"by_user", {"reason"}};
inline const Kind<std::vector<std::string>> left_out_in_doubt{"in_doubt", {"doubts"}};
/// way: "left", "right", "up" or "down".
inline const Kind<Length, Term> misfed{"misfeed", {"off_mm", "way"}};
/// sense: "clockwise" or "anticlockwise".
inline const Kind<Angle, Term, Length> misturned{"misfeed", {"turn_mrad", "sense", "corners_mm"}};
inline const Kind<std::int64_t, std::string, std::vector<std::string>> doubtful_kept{
    "doubtful_kept", {"sheet", "source", "doubts"}};
inline const Kind<std::int64_t, std::string, std::vector<std::string>, std::int64_t>
    doubtful_but_needed{"doubtful_kept", {"sheet", "source", "doubts", "sound_sheets"}};
inline const Kind<std::int64_t, std::string, std::vector<std::string>> doubtful_left_out{
    "doubtful_left_out", {"sheet", "source", "doubts"}};
inline const Kind<std::vector<std::string>> doubtful_sheets_count{"doubtful_sheets",
                                                                  {"sheets_kept"}};
inline const Kind<std::vector<std::string>> doubtful_sheets_out{"doubtful_sheets",
                                                                {"sheets_left_out"}};
inline const Kind<std::int64_t, std::string, Length, Term> misfeed_left_out{
    "misfeed_left_out", {"sheet", "source", "off_mm", "way"}};
inline const Kind<std::int64_t, std::string, Angle, Term, Length> misturn_left_out{
    "misfeed_left_out", {"sheet", "source", "turn_mrad", "sense", "corners_mm"}};
inline const Kind<std::int64_t, std::string, Length, Term> misfeed_kept{
    "misfeed_kept", {"sheet", "source", "off_mm", "way"}};
inline const Kind<std::int64_t, std::string, Angle, Term, Length> misturn_kept{
    "misfeed_kept", {"sheet", "source", "turn_mrad", "sense", "corners_mm"}};
inline const Kind<std::int64_t, std::string, Length, Term> sheet_stands_out{
    "sheet_stands_out", {"sheet", "source", "off_mm", "way"}};
inline const Kind<std::int64_t, std::string, Angle, Term, Length> sheet_turned_out{
    "sheet_stands_out", {"sheet", "source", "turn_mrad", "sense", "corners_mm"}};

// Remarks on an advice.
inline const Kind<std::int64_t> sheets_hopeless{"sheets_hopeless", {"sheets_needed"}};
inline const Kind<std::vector<std::string>> spread_floored{"spread_floored", {"components"}};
inline const Kind<> printer_not_resolved{"printer_not_resolved", {}};

// What was done to a profile.
inline const Kind<std::int64_t> made{"made", {"sheets"}};
inline const Kind<std::int64_t, std::string> sheets_added{"sheets_added", {"sheets", "source"}};
inline const Kind<std::int64_t, std::string> recentred{"recentred", {"sheets", "source"}};
inline const Kind<std::int64_t, std::string> started_again{"started_again", {"sheets", "source"}};
inline const Kind<std::string> renamed{"renamed", {"former_name"}};

// Profiles in their files.
inline const Kind<std::string, std::string, std::vector<Finding>> unreadable_profile{
    "unreadable_profile", {"file", "at", "problems"}};
inline const Kind<> name_is_empty{"name_is_empty", {}};
inline const Kind<> named_so_already{"named_so_already", {}};

inline const Kind<std::int64_t> too_small{"too_small", {"least"}};
inline const Kind<std::int64_t> too_large_count{"too_large_count", {"most"}};
inline const Kind<std::int64_t> too_many_entries{"too_many_entries", {"most"}};
inline const Kind<> not_a_session{"not_a_session", {}};
inline const Kind<> field_of_too_few_points{"field_of_too_few_points", {}};
inline const Kind<> sessions_missing{"sessions_missing", {}};
inline const Kind<std::int64_t, std::int64_t> feeds_do_not_add_up{"feeds_do_not_add_up",
                                                                  {"value", "feeds"}};
inline const Kind<std::int64_t, std::int64_t> dof_do_not_add_up{"dof_do_not_add_up",
                                                                {"value", "dof"}};
inline const Kind<std::int64_t, std::int64_t> sheets_do_not_add_up{"sheets_do_not_add_up",
                                                                   {"value", "sheets"}};
inline const Kind<> more_than_feeds{"more_than_feeds", {}};
inline const Kind<std::string, std::string> model_too_small{"model_too_small",
                                                            {"model", "component"}};
inline const Kind<> spread_without_dof{"spread_without_dof", {}};
inline const Kind<Share, Share, Share, Share> other_print_scale{
    "profile_scale",
    {"width_share", "height_share", "profile_width_share", "profile_height_share"}};
inline const Kind<Share, Share> profile_scale{"profile_scale", {"width_share", "height_share"}};
inline const Kind<std::string, Length, Length, std::string, Length, Length> profile_paper{
    "profile_paper",
    {"measured_on", "measured_width_mm", "measured_height_mm", "paper", "width_mm", "height_mm"}};
inline const Kind<Term, Term> profile_turn{"profile_turn", {"measured_turn", "turn"}};
inline const Kind<std::string, std::string> profile_feed{"profile_feed", {"measured", "now"}};
inline const Kind<std::string, std::string> profile_stock{"profile_stock", {"measured", "now"}};
inline const Kind<std::string, std::string> profile_quality{"profile_quality", {"measured", "now"}};
inline const Kind<std::int64_t, std::int64_t> advice_needs_recentring{
    "recentre_first", {"sessions", "fewest_sessions"}};
inline const Kind<> recentre_before_job{"sessions_differ", {}};
inline const Kind<> sheets_differ{"sheets_differ", {}};
inline const Kind<> sheets_do_not_differ{"sheets_do_not_differ", {}};
inline const Kind<> passes_drift{"passes_drift", {}};
inline const Kind<> passes_do_not_drift{"passes_do_not_drift", {}};
inline const Kind<Term> run_drifts{"run_drifts", {"component"}};
inline const Kind<> run_does_not_drift{"run_does_not_drift", {}};
inline const Kind<Term> two_places{"two_places", {"component"}};
inline const Kind<> one_place{"one_place", {}};
inline const Kind<Term> lopsided{"lopsided", {"component"}};
inline const Kind<> not_lopsided{"not_lopsided", {}};

}  // namespace versolay::findings
