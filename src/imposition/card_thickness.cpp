#include "imposition/card_thickness.h"

#include <array>
#include <string_view>

#include "core/numbers.h"
#include "imposition/findings.h"
#include "versolay/result.h"

namespace versolay {
namespace {

struct Unit {
  std::string_view name;
  double low_mm;  // of one of it
  double high_mm;
};
constexpr std::array kUnits = {Unit{"gsm", 0.83e-3, 1.4e-3}, Unit{"um", 1e-3, 1e-3},
                               Unit{"mm", 1.0, 1.0}, Unit{"mil", 0.0254, 0.0254}};

}  // namespace

Thickness parse_thickness(const std::string& field, const std::string& text) {
  for (const Unit& unit : kUnits) {
    if (!text.ends_with(unit.name)) continue;
    const auto number = parse_number(text.substr(0, text.size() - unit.name.size()));
    if (!number) break;
    const Thickness t{*number * unit.low_mm, *number * unit.high_mm};
    if (!(t.low_mm >= 0.01 && t.high_mm <= 2.0)) break;
    return t;
  }
  throw Error(field, findings::not_a_thickness(text));
}

CardThickness card_thickness(const Thickness& paper, const std::optional<Thickness>& pouch_side,
                             int cards) {
  CardThickness t;
  t.cards = cards;
  t.card = paper;
  if (pouch_side) {
    t.card.low_mm += 2 * pouch_side->low_mm;
    t.card.high_mm += 2 * pouch_side->high_mm;
  }
  t.deck = {cards * t.card.low_mm, cards * t.card.high_mm};
  return t;
}

}  // namespace versolay
