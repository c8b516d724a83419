// How far numbers that mean the same length may be apart.
#pragma once

namespace versolay {

constexpr double kSlackMm = 1e-6;  // 200 / 66.666... = 3, whatever the last digit

}  // namespace versolay
