#include "layout/card_format.h"

#include <array>

#include "core/numbers.h"

namespace versolay {
namespace {

struct Format {
  std::string_view name;
  CardSize size;
};

// Sizes as they are sold: common practice. id-1: ISO/IEC 7810.
constexpr std::array<Format, 8> kFormats = {{{"standard", {63, 88}},
                                             {"poker", {63.5, 88.9}},
                                             {"bridge", {57.15, 88.9}},
                                             {"tarot", {70, 120}},
                                             {"half-size", {44.45, 63.5}},
                                             {"mini", {44, 67}},
                                             {"square", {70, 70}},
                                             {"id-1", {53.98, 85.60}}}};

}  // namespace

std::optional<CardSize> card_size_from(std::string_view text) {
  for (const Format& format : kFormats) {
    if (text == format.name) return format.size;
  }
  const auto pair = parse_pair(text);
  if (!pair) return std::nullopt;
  return CardSize{pair->first, pair->second};
}

std::string card_format_list() {
  std::string list;
  for (const Format& format : kFormats) {
    if (!list.empty()) list += ", ";
    list += std::string(format.name) + " " + format_number(format.size.width_mm, 2) + "x" +
            format_number(format.size.height_mm, 2);
  }
  return list;
}

}  // namespace versolay
