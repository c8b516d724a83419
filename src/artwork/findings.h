// The findings of this room.
#pragma once

#include "versolay/finding.h"

namespace versolay::findings {

inline const Kind<> font_damaged{"font_damaged", {}};
inline const Kind<> picture_empty{"picture_empty", {}};
inline const Kind<> not_a_picture{"not_a_picture", {}};
inline const Kind<> picture_changed{"picture_changed", {}};
inline const Kind<std::string, std::string> picture_unsupported{"picture_unsupported",
                                                                {"format", "detail"}};
inline const Kind<std::string> picture_beyond_the_library{"picture_beyond_the_library", {"detail"}};
inline const Kind<std::string, std::string> picture_damaged{"picture_damaged",
                                                            {"format", "detail"}};
inline const Kind<std::string> picture_without_pixels{"picture_without_pixels", {"size"}};
inline const Kind<std::string> picture_too_large{"picture_too_large", {"size"}};
inline const Kind<std::int64_t, std::int64_t> picture_too_large_to_unpack{
    "picture_too_large_to_unpack", {"width_px", "height_px"}};
inline const Kind<std::int64_t, std::string> page_not_named{"page_not_named", {"pages", "name"}};
inline const Kind<std::int64_t> picture_channels{"picture_channels", {"channels"}};
inline const Kind<> picture_cmyk{"picture_cmyk", {}};
inline const Kind<std::int64_t> too_many_pictures{"too_many_pictures", {"most"}};
inline const Kind<std::int64_t, std::int64_t> picture_has_no_such_page{"picture_has_no_such_page",
                                                                       {"pages", "page"}};

}  // namespace versolay::findings
