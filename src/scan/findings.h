// The findings of this room.
#pragma once

#include "versolay/finding.h"

namespace versolay::findings {

inline const Kind<std::string> scan_damaged{"scan_damaged", {"detail"}};
inline const Kind<> scan_without_pixels{"scan_without_pixels", {}};
inline const Kind<std::int64_t, std::int64_t, double, std::int64_t> scan_too_large{
    "scan_too_large", {"width_px", "height_px", "most_megapixels", "most_side_px"}};
inline const Kind<std::int64_t, double> scan_too_deep{"scan_too_deep",
                                                      {"bits_per_pixel", "megapixels"}};
inline const Kind<std::string> scan_unreadable{"scan_unreadable", {"reason"}};
inline const Kind<> scan_is_a_folder{"scan_is_a_folder", {}};
inline const Kind<> scan_is_no_file{"scan_is_no_file", {}};
inline const Kind<> scan_is_empty{"scan_is_empty", {}};
inline const Kind<> not_a_scan_format{"not_a_scan_format", {}};
inline const Kind<std::string> program_missing{"program_missing", {"program"}};
inline const Kind<> scanned_pdf_packing{"scanned_pdf_packing", {}};
inline const Kind<std::int64_t, std::int64_t> scanned_pdf_beyond_limits{"scanned_pdf_beyond_limits",
                                                                        {"seconds", "megabytes"}};
inline const Kind<> scanned_pdf_damaged{"scanned_pdf_damaged", {}};
inline const Kind<std::int64_t, std::int64_t> scanned_pdf_too_long{"scanned_pdf_too_long",
                                                                   {"pages", "most_pages"}};
inline const Kind<> reading_stopped{"reading_stopped", {}};
inline const Kind<> no_temporary_folder{"no_temporary_folder", {}};
inline const Kind<std::int64_t, std::int64_t> no_memory_for_scan{"no_memory_for_scan",
                                                                 {"width_px", "height_px"}};
inline const Kind<std::string, double, double> scan_resolution_uneven{
    "scan_resolution_uneven", {"scan", "across_dpi", "down_dpi"}};
inline const Kind<std::string> scan_mirrored{"scan_mirrored", {"scan"}};
inline const Kind<std::string> scan_black_and_white{"scan_black_and_white", {"scan"}};
inline const Kind<std::int64_t> too_many_scan_pages{"too_many_scan_pages", {"most_pages"}};
inline const Kind<std::string> scan_unsupported{"scan_unsupported", {"detail"}};
inline const Kind<> scan_in_cmyk{"scan_in_cmyk", {}};
inline const Kind<> scan_jpeg_colours{"scan_jpeg_colours", {}};
inline const Kind<> scan_thumbnail_only{"scan_thumbnail_only", {}};
inline const Kind<std::int64_t> scan_tiff_compression{"scan_tiff_compression", {"compression"}};
inline const Kind<std::int64_t> scan_tiff_colours{"scan_tiff_colours", {"photometric"}};
inline const Kind<std::int64_t, std::int64_t> scan_tiff_samples{"scan_tiff_samples",
                                                                {"bits", "format"}};
inline const Kind<std::int64_t> scan_tiff_values{"scan_tiff_values", {"values"}};
inline const Kind<std::int64_t, std::int64_t> scan_truncated{"scan_truncated",
                                                             {"width_px", "height_px"}};
inline const Kind<std::int64_t, std::int64_t> no_such_scan_page{"no_such_scan_page",
                                                                {"pages", "page"}};
inline const Kind<> scanned_pdf_without_pages{"scanned_pdf_without_pages", {}};
inline const Kind<> scanned_pdf_without_page_size{"scanned_pdf_without_page_size", {}};
inline const Kind<> scanned_pdf_not_unpacked{"scanned_pdf_not_unpacked", {}};
inline const Kind<> scanned_pdf_without_end{"scanned_pdf_without_end", {}};
inline const Kind<> scanned_pdf_picture_differs{"scanned_pdf_picture_differs", {}};
inline const Kind<> scanned_page_empty{"scanned_page_empty", {}};
inline const Kind<std::int64_t> scanned_page_of_pictures{"scanned_page_of_pictures", {"pictures"}};
inline const Kind<> scanned_page_masked{"scanned_page_masked", {}};
inline const Kind<Share, Share> scanned_page_partly_covered{"scanned_page_partly_covered",
                                                            {"width_share", "height_share"}};
inline const Kind<std::int64_t> scanned_pdf_without_pictures{"scanned_pdf_without_pictures",
                                                             {"pages"}};
inline const Kind<> no_scans_in_folder{"no_scans_in_folder", {}};

}  // namespace versolay::findings
