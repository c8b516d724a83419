// The findings of the commands: what is wrong with a command line, a request, or files as a whole.
// app and cli, which state them, are above this room; the sentences are in command_sentences.cpp.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "versolay/finding.h"

namespace versolay::findings {

// What was typed for an option: an Error names the option.
inline const Kind<> number_expected{"number_expected", {}};
inline const Kind<> share_expected{"share_expected", {}};
inline const Kind<> back_image_missing{"back_image_missing", {}};
inline const Kind<> value_expected{"value_expected", {}};
inline const Kind<> file_name_expected{"file_name_expected", {}};
inline const Kind<> pair_expected{"pair_expected", {}};
inline const Kind<> whole_number_expected{"whole_number_expected", {}};
inline const Kind<> count_expected{"count_expected", {}};
inline const Kind<> sheet_expected{"sheet_expected", {}};
inline const Kind<> sheets_expected{"sheets_expected", {}};
inline const Kind<> pages_expected{"pages_expected", {}};
inline const Kind<> grid_expected{"grid_expected", {}};
inline const Kind<> margins_expected{"margins_expected", {}};
inline const Kind<> ratio_expected{"ratio_expected", {}};
/// formats: names and sizes, "poker 63.5x88.9".
inline const Kind<std::string> card_expected{"card_expected", {"formats"}};
inline const Kind<std::vector<std::string>> choice_expected{"choice_expected", {"choices"}};
/// typed, in_millimetres, to_write: as a person would write them, "744 x 1039".
inline const Kind<std::string, double, std::string, std::string> looks_like_pixels{
    "looks_like_pixels", {"typed", "ppi", "in_millimetres", "to_write"}};

// The command line as a whole.
inline const Kind<std::string, std::string> unknown_word_resembles{"unknown_word",
                                                                   {"word", "known_word"}};
inline const Kind<std::vector<std::string>> unknown_words{"unknown_word", {"words"}};
inline const Kind<std::string, std::string> option_missing{"option_missing",
                                                           {"option", "option_meaning"}};
/// complaint: of the parser.
inline const Kind<std::string> command_line_wrong{"command_line_wrong", {"complaint"}};
inline const Kind<std::string> unknown_command_resembles{"unknown_command", {"known_command"}};
inline const Kind<> unknown_command{"unknown_command", {}};
inline const Kind<> unknown_shell{"unknown_shell", {}};

// Options that do not go together, or need each other.
inline const Kind<std::string> not_with_option{"not_with_option", {"other_option"}};
inline const Kind<std::string> needs_option{"needs_option", {"other_option"}};
inline const Kind<> two_rehearsals{"two_rehearsals", {}};
inline const Kind<> own_pdf_states_it{"own_pdf_states_it", {}};
inline const Kind<> profile_is_for_jobs{"profile_is_for_jobs", {}};
inline const Kind<> guides_need_a_card{"guides_need_a_card", {}};
inline const Kind<> nothing_to_correct{"nothing_to_correct", {}};
inline const Kind<> backs_of_pictures{"backs_of_pictures", {}};
inline const Kind<> too_many_inputs{"too_many_inputs", {}};
inline const Kind<> reason_missing{"reason_missing", {}};
inline const Kind<> reason_empty{"reason_empty", {}};
inline const Kind<> no_table_named{"no_table_named", {}};
inline const Kind<> second_pdf{"second_pdf", {}};
inline const Kind<> pages_of_a_pass_are_the_same{"pages_of_a_pass_are_the_same", {}};
inline const Kind<> proof_is_fed_once{"proof_is_fed_once", {}};
inline const Kind<> no_experiment{"no_experiment", {}};

// Fields of a request.
inline const Kind<> printer_not_named{"printer_not_named", {}};
inline const Kind<> not_a_run_code{"not_a_run_code", {}};
inline const Kind<> label_too_long{"label_too_long", {}};
inline const Kind<std::int64_t, std::int64_t> not_one_of_the_sheets{"not_one_of_the_sheets",
                                                                    {"sheet", "sheets"}};
inline const Kind<std::int64_t, std::string> not_so_many_sheets{"not_so_many_sheets",
                                                                {"most_sheets", "file"}};
inline const Kind<> no_scans_named{"no_scans_named", {}};
inline const Kind<> pdf_stays_a_pdf{"pdf_stays_a_pdf", {}};
inline const Kind<> not_a_corrected_kind{"not_a_corrected_kind", {}};

// Files and folders that were named.
inline const Kind<> folder_not_empty{"folder_not_empty", {}};
inline const Kind<> neither_profile_nor_readings{"neither_profile_nor_readings", {}};
inline const Kind<> other_target_geometry{"other_target_geometry", {}};
inline const Kind<> not_remembered{"not_remembered", {}};
inline const Kind<> no_job_setting{"no_job_setting", {}};
/// rejected: what is wrong with each, and which it is ("files", "sheet").
inline const Kind<std::vector<Finding>> no_file_opened{"no_file_opened", {"rejected"}};
inline const Kind<std::vector<Finding>> no_sheet_read{"no_sheets", {"rejected"}};
inline const Kind<std::vector<Finding>> no_front_read{"no_fronts", {"rejected"}};
inline const Kind<std::string> table_not_filled_in{"no_sheets", {"table"}};
inline const Kind<std::string, std::vector<Finding>> no_sheet_in_table{"no_sheets",
                                                                       {"table", "rejected"}};
inline const Kind<> no_job{"no_job", {}};
inline const Kind<> no_profiles{"no_profiles", {}};
inline const Kind<std::string> spread_of_one_sheet{"spread_unknown", {"profile"}};
inline const Kind<> printer_like_has_no_spread{"printer_like_has_no_spread", {}};

// Pictures of whole pages.
inline const Kind<std::string, std::int64_t, std::int64_t, Length, Length, double, std::int64_t,
                  std::int64_t>
    image_size{"image_shape",
               {"file", "width_px", "height_px", "paper_width_mm", "paper_height_mm", "ppi",
                "page_width_px", "page_height_px"}};
inline const Kind<std::string, std::int64_t, std::int64_t, Length, Length, std::int64_t,
                  std::int64_t>
    image_shape{"image_shape",
                {"file", "width_px", "height_px", "paper_width_mm", "paper_height_mm",
                 "page_width_px_at_300", "page_height_px_at_300"}};
// What a check of new sheets means for the next job.
inline const Kind<> constant_part_moved{"constant_part_moved", {}};
inline const Kind<> spread_changed{"spread_changed", {}};

inline const Kind<Length> places_differ{"places_differ", {"amplitude_mm"}};
inline const Kind<std::string, std::string> turns_differ{"turns_differ",
                                                         {"set_up", "other_set_up"}};

// PDFs that this program should have written. wanted: "target" or "job".
inline const Kind<std::string, Term> not_ours{"not_ours", {"file", "wanted"}};
inline const Kind<std::string, Term> not_this_kind{"not_this_kind", {"file", "wanted"}};
inline const Kind<std::string> begins_with_a_back{"backs_alone", {"file"}};
inline const Kind<std::string, std::int64_t> pages_out_of_order{"pages_out_of_order",
                                                                {"file", "page"}};
inline const Kind<std::string, std::int64_t, Length, Term> pages_moved{
    "pages_moved", {"file", "page", "moved_mm", "wanted"}};

// The machine.
inline const Kind<> not_in_a_browser{"not_in_a_browser", {}};
inline const Kind<std::string> cannot_be_reached{"cannot_be_reached", {"reason"}};
inline const Kind<> no_memory{"no_memory", {}};
inline const Kind<std::string> internal_error{"internal_error", {"fault"}};

}  // namespace versolay::findings
