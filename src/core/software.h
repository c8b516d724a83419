// The one place that knows the program's name and version.
#pragma once

namespace versolay {
inline constexpr char kSoftware[] = "versolay " VERSOLAY_VERSION;
}  // namespace versolay
