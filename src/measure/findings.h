// The findings of this room about a scan.
#pragma once

#include <cstdint>
#include <string>

#include "versolay/finding.h"

namespace versolay::findings {

// Why a picture cannot be read.
inline const Kind<> negative{"negative", {}};
inline const Kind<> mirrored{"mirrored", {}};
inline const Kind<> dark_picture{"dark_picture", {}};
inline const Kind<> blank_page{"blank_page", {}};
inline const Kind<> no_marks{"no_marks", {}};
inline const Kind<std::int64_t, std::int64_t> picture_too_small{"no_marks",
                                                                {"width_px", "height_px"}};
inline const Kind<> one_tag_only{"too_few_marks", {}};
/// picture: "scan" or "photograph".
inline const Kind<std::int64_t, std::int64_t, Term> too_few_marks{
    "too_few_marks", {"rings_found", "rings_expected", "picture"}};
inline const Kind<> mixed_marks{"mixed_marks", {}};
inline const Kind<> identity_unreadable{"identity_unreadable", {}};
inline const Kind<> photograph_askew{"photograph_askew", {}};
inline const Kind<double, double> photograph_too_small{"photograph_too_small",
                                                       {"px_per_mm", "least_px_per_mm"}};
inline const Kind<Length> photograph_not_flat{"photograph_not_flat", {"off_mm"}};

// Remarks on one that can.
inline const Kind<std::string, Length> carriage_jerks{"carriage_jerks", {"scan", "jerk_mm"}};
inline const Kind<std::string, Length> scan_lines_lost{"scan_lines_lost", {"scan", "step_mm"}};
inline const Kind<std::int64_t, std::int64_t, std::string> marks_missing{
    "marks_missing", {"rings_seen", "rings_expected", "scan"}};
inline const Kind<std::string, Share> scan_smeared{"scan_smeared", {"scan", "tail_share"}};
inline const Kind<std::string, std::string, Length> marks_smeared{"marks_smeared",
                                                                  {"hole", "scan", "off_mm"}};
inline const Kind<std::string> scan_fault{"scan_fault", {"fault"}};
inline const Kind<> no_memory_for_picture{"no_memory_for_picture", {}};

// Further passes of a sheet through the printer.
inline const Kind<std::string, std::int64_t> pass_missing{"pass_missing", {"scan", "pass"}};
inline const Kind<std::string, std::int64_t> pass_on_wrong_side{"pass_on_wrong_side",
                                                                {"scan", "pass"}};
inline const Kind<std::string, std::int64_t> pass_fed_round{"pass_fed_round", {"scan", "pass"}};
inline const Kind<std::string, std::int64_t> pass_printed_twice{"pass_printed_twice",
                                                                {"scan", "pass"}};
inline const Kind<std::string, std::int64_t> pass_unclear{"pass_unclear", {"scan", "pass"}};
inline const Kind<std::string> passes_need_scans{"passes_need_scans", {"scan"}};

}  // namespace versolay::findings
