// Tolerance within which two numbers count as the same length.
#pragma once

namespace versolay {

constexpr double kSlackMm = 1e-6;  // 200 / 66.666... = 3, whatever the last digit

}  // namespace versolay
