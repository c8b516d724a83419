// The text of a check of new sheets.
#pragma once

#include <optional>
#include <string>

#include "profile/monitor.h"
#include "words/display_unit.h"

namespace versolay {

/// All of it: what to do, then intervals, distances and limits.
std::string check_words(const Check& check, const PrinterProfile& profile,
                        const std::optional<LeftAfterCorrection>& left,
                        const DisplayUnit& unit = {});

/// What to do and why, without statistics.
std::string short_check_words(const Check& check, const PrinterProfile& profile,
                              const std::optional<LeftAfterCorrection>& left,
                              const DisplayUnit& unit = {});

}  // namespace versolay
