// What a check of new sheets says.
#pragma once

#include <optional>
#include <string>

#include "profile/monitor.h"
#include "words/display_unit.h"

namespace versolay {

std::string check_words(const Check& check, const PrinterProfile& profile,
                        const std::optional<LeftAfterCorrection>& left,
                        const DisplayUnit& unit = {});

}  // namespace versolay
