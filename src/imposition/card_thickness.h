// How thick a finished card is, and the deck.
#pragma once

#include <optional>
#include <string>

namespace versolay {

/// A range, because the weight of a paper does not determine its thickness exactly.
struct Thickness {
  double low_mm = 0.0;
  double high_mm = 0.0;
};

/// "220um", "0.22mm", "9mil" (thousandths of an inch), or "200gsm".
/// Paper of a given weight is 0.83 to 1.4 um thick for each gram per square metre: 180 to 200 gsm
/// correspond to 150 to 280 um (published calipers of papers for cards).
/// Throws Error, naming `field`, when the text is none of these or is not 0.01 to 2 mm.
Thickness parse_thickness(const std::string& field, const std::string& text);

struct CardThickness {
  Thickness card;
  Thickness deck;
  int cards = 0;
};

/// Paper between two films of a pouch, if there is one.
/// @param pouch_side  thickness of one film.
CardThickness card_thickness(const Thickness& paper, const std::optional<Thickness>& pouch_side,
                             int cards);

}  // namespace versolay
