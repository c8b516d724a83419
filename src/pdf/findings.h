// The findings of this room.
#pragma once

#include "versolay/finding.h"

namespace versolay::findings {

inline const Kind<std::string> protected_pdf{"protected", {"file"}};
inline const Kind<std::string> protection_dropped{"protection_dropped", {"file"}};
inline const Kind<std::string, std::int64_t, std::int64_t> too_many_pages{
    "too_many_pages", {"file", "pages", "most_pages"}};
inline const Kind<std::int64_t, std::string> page_without_size{"page_size", {"page", "file"}};
inline const Kind<std::string> form_fields_drawn{"form_fields_drawn", {"file"}};
inline const Kind<std::string> screen_annotations_left_out{"screen_annotations_left_out", {"file"}};
inline const Kind<std::string> annotation_lost{"annotation_lost", {"file"}};
inline const Kind<std::string, Length, Length> already_corrected{
    "already_corrected", {"file", "moved_right_mm", "moved_down_mm"}};
inline const Kind<std::string> damaged_input{"damaged_input", {"file"}};
inline const Kind<> pdf_does_not_open{"pdf_does_not_open", {}};
inline const Kind<std::int64_t> printed_text_not_utf8{"printed_text_not_utf8", {"byte"}};
inline const Kind<std::int64_t, std::int64_t> too_many_annotations{"too_many_annotations",
                                                                   {"annotations", "most"}};
inline const Kind<> too_much_drawn{"too_much_drawn", {}};
inline const Kind<> protected_art{"protected_art", {}};
inline const Kind<std::int64_t, std::int64_t> too_many_art_pages{"too_many_art_pages",
                                                                 {"pages", "most_pages"}};
inline const Kind<> art_page_without_size{"art_page_without_size", {}};
inline const Kind<> no_pages{"no_pages", {}};
inline const Kind<std::string> pdf_not_finished{"pdf_not_finished", {"reason"}};
inline const Kind<> pdf_locked{"pdf_locked", {}};
/// step: of ours, for a report to the developers; error and detail: of the library.
inline const Kind<std::string, std::string, std::int64_t> pdf_page_not_written{
    "pdf_page_not_written", {"step", "error", "detail"}};
inline const Kind<> not_a_pdf{"not_a_pdf", {}};
inline const Kind<std::int64_t> unpacks_too_large{"unpacks_too_large", {"megabytes"}};
/// turned: "across" where it would fit once turned by a quarter, else "no".
inline const Kind<std::int64_t, std::string, Length, Length, Length, Length, Term>
    page_of_other_size{"page_size",
                       {"page", "file", "width_mm", "height_mm", "profile_width_mm",
                        "profile_height_mm", "turned"}};
inline const Kind<std::string, std::int64_t> odd_pages{"odd_pages", {"file", "pages"}};
inline const Kind<std::string, std::int64_t, std::int64_t> no_such_page{"no_such_page",
                                                                        {"file", "pages", "page"}};
inline const Kind<std::string> pdf_damaged{"pdf_damaged", {"detail"}};
inline const Kind<> pdf_encryption_unknown{"pdf_encryption_unknown", {}};
inline const Kind<> pdf_number_too_large{"pdf_number_too_large", {}};
inline const Kind<> pdf_index_damaged{"pdf_index_damaged", {}};

}  // namespace versolay::findings
