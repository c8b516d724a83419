// Words of SheetReading::datum that programs look for.
#pragma once

#include <string_view>

#include "core/translation.h"

namespace versolay {

/// At the end of the datum of a sheet of which one picture at least was taken with a camera.
inline constexpr std::string_view kPhotographed = tr_noop(", photographed");

}  // namespace versolay
