// Parses and formats numbers independently of the locale; converts lengths between units.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>

namespace versolay {

inline constexpr double kMmPerInch = 25.4;
inline constexpr double kPtPerInch = 72.0;

constexpr double pt_from_mm(double mm) { return mm * kPtPerInch / kMmPerInch; }
constexpr double mm_from_pt(double pt) { return pt * kMmPerInch / kPtPerInch; }
/// Nominal pixels of artwork at `ppi`. Pixels of a scan need a measured transform instead.
constexpr double artwork_px_from_mm(double mm, double ppi) { return mm * ppi / kMmPerInch; }

/// The whole text as one finite number; nullopt otherwise.
std::optional<double> parse_number(std::string_view text);
std::optional<int> parse_integer(std::string_view text);
/// "AxB" (x or X) as two finite numbers; nullopt otherwise.
std::optional<std::pair<double, double>> parse_pair(std::string_view text);

/// Fixed notation with at most `decimals` decimals, trailing zeros removed: 2.50 -> "2.5".
std::string format_number(double value, int decimals);
/// Fixed notation with exactly `decimals` decimals, never "-0.00".
std::string format_fixed(double value, int decimals);

}  // namespace versolay
