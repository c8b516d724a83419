// The findings of this room.
#pragma once

#include "versolay/finding.h"

namespace versolay::findings {

// Of an Error: what is wrong with the file, the place in it, or the field that the Error names.

inline const Kind<std::int64_t> quotation_open{"quotation_open", {"line"}};
/// complaint: of the library that reads tables.
inline const Kind<std::string> not_a_table{"not_a_table", {"complaint"}};
inline const Kind<> not_utf8_table{"not_utf8_table", {}};
inline const Kind<> designs_missing{"designs_missing", {}};
inline const Kind<std::string> font_missing{"font_missing", {"folders"}};
inline const Kind<std::string> cannot_write{"cannot_write", {"reason"}};
inline const Kind<> is_a_folder{"is_a_folder", {}};
inline const Kind<> is_a_pipe{"is_a_pipe", {}};
inline const Kind<std::string> cannot_open{"cannot_open", {"reason"}};
inline const Kind<> does_not_exist{"does_not_exist", {}};
inline const Kind<> cannot_read{"cannot_read", {}};
inline const Kind<std::string> cannot_make_folder{"cannot_make_folder", {"reason"}};
inline const Kind<> folder_missing{"folder_missing", {}};
inline const Kind<> output_is_a_folder{"output_is_a_folder", {}};
inline const Kind<> output_is_a_link{"output_is_a_link", {}};
inline const Kind<> output_is_a_pipe{"output_is_a_pipe", {}};
inline const Kind<> output_exists{"output_exists", {}};
inline const Kind<> output_is_an_input{"output_is_an_input", {}};
inline const Kind<std::string> same_output{"same_output", {"other"}};
inline const Kind<> not_an_object{"not_an_object", {}};
inline const Kind<std::string> key_missing{"key_missing", {"key"}};
inline const Kind<> not_an_array{"not_an_array", {}};
inline const Kind<> not_a_text{"not_a_text", {}};
inline const Kind<> not_a_flag{"not_a_flag", {}};
inline const Kind<> not_a_whole_number{"not_a_whole_number", {}};
inline const Kind<> not_a_number{"not_a_number", {}};
inline const Kind<> not_finite{"not_finite", {}};
inline const Kind<double, double, double> out_of_range{"out_of_range", {"value", "least", "most"}};
inline const Kind<Length, Length, Length> length_out_of_range{"out_of_range",
                                                              {"value_mm", "least_mm", "most_mm"}};
inline const Kind<double, double, double> not_above{"not_above", {"value", "above", "most"}};
inline const Kind<> nested_too_deeply{"nested_too_deeply", {}};
inline const Kind<std::string> key_twice{"key_twice", {"key"}};
inline const Kind<std::int64_t> not_json{"not_json", {"byte"}};
/// Of a sheet whose rotation is 0 because nobody measured it.
inline const Kind<> rotation_unknown{"rotation_unknown", {}};
inline const Kind<> picture_instead_of_json{"picture_instead_of_json", {}};
inline const Kind<> pdf_instead_of_json{"pdf_instead_of_json", {}};
inline const Kind<std::string> number_too_large{"number_too_large", {"number"}};
inline const Kind<> no_schema_version{"no_schema_version", {}};
inline const Kind<std::string> newer_schema{"newer_schema", {"schema"}};
inline const Kind<std::int64_t> wrong_rows{"wrong_rows", {"rows"}};
inline const Kind<std::int64_t> wrong_columns{"wrong_columns", {"columns"}};
inline const Kind<std::string> not_a_paper{"not_a_paper", {"text"}};
inline const Kind<std::string> variance_negative{"variance_negative", {"component"}};
inline const Kind<std::string, double, double> variance_out_of_range{
    "variance_out_of_range", {"component", "variance", "most"}};
inline const Kind<std::int64_t, std::int64_t> covariance_of_a_constant{"covariance_of_a_constant",
                                                                       {"row", "column"}};
inline const Kind<> covariance_not_symmetric{"covariance_not_symmetric", {}};
inline const Kind<> covariance_not_positive{"covariance_not_positive", {}};
inline const Kind<> not_a_turn{"not_a_turn", {}};
/// found: the schema of the file, empty without any; needed: the schema that is wanted.
/// holds: "readings", "profile", or "" for what is neither.
inline const Kind<std::string, std::string, Term> profile_needed{"profile_needed",
                                                                 {"found", "needed", "holds"}};
inline const Kind<std::string, std::string, Term> readings_needed{"readings_needed",
                                                                  {"found", "needed", "holds"}};
inline const Kind<std::string, std::string> geometry_needed{"geometry_needed", {"found", "needed"}};
inline const Kind<std::string, std::string> other_file_needed{"other_file_needed",
                                                              {"found", "needed"}};
inline const Kind<> not_a_size{"not_a_size", {}};
inline const Kind<> not_three_components{"not_three_components", {}};
inline const Kind<> not_a_model{"not_a_model", {}};

}  // namespace versolay::findings
