// The findings of this room.
#pragma once

#include "versolay/finding.h"

namespace versolay::findings {

inline const Kind<> not_a_grey_picture{"not_a_grey_picture", {}};
inline const Kind<std::int64_t, std::int64_t, std::string> picture_not_written{
    "picture_not_written", {"width_px", "height_px", "kind"}};
inline const Kind<std::int64_t> pages_do_not_pair{"pages_do_not_pair", {"pages"}};
inline const Kind<std::int64_t, std::int64_t> too_few_pages{"too_few_pages",
                                                            {"sheets_there", "sheets_wanted"}};
inline const Kind<std::int64_t> turn_of_the_scan_impossible{"turn_of_the_scan_impossible",
                                                            {"degrees"}};
inline const Kind<std::string> program_not_started{"program_not_started", {"reason"}};
inline const Kind<std::string> program_stopped{"program_stopped", {"output"}};
inline const Kind<> mupdf_missing{"mupdf_missing", {}};
inline const Kind<> poppler_missing{"poppler_missing", {}};
inline const Kind<> not_a_file{"not_a_file", {}};
inline const Kind<std::string, std::string> pdf_not_drawable{"pdf_not_drawable",
                                                             {"program", "complaint"}};
inline const Kind<std::int64_t, std::string, std::string> page_not_drawn{
    "page_not_drawn", {"page", "program", "complaint"}};
inline const Kind<Length, Length, Length, Length> pages_of_other_size{
    "pages_of_other_size", {"width_mm", "height_mm", "paper_width_mm", "paper_height_mm"}};
inline const Kind<> not_a_kind_of_hole{"not_a_kind_of_hole", {}};
inline const Kind<> not_a_side{"not_a_side", {}};

}  // namespace versolay::findings
