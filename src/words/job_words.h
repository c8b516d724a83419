// Words of a job of cards: the line in the waste, how thick the cards get.
#pragma once

#include <set>
#include <string>

#include "imposition/card_thickness.h"
#include "imposition/drawn_sheets.h"
#include "versolay/advice.h"

namespace versolay::words {

/// "heron deck  ·  sheet 1 of 6, front  ·  turn on the long edge  ·  profile printer.json".
/// @param profile_name  empty: no profile.
/// @param fitted        sheets whose back fits this one front.
SlugWords slug_words(const std::string& job, Turn turn, const std::string& profile_name,
                     const std::set<int>& fitted = {});

/// Of the PDF that has the cut card alone.
std::string cut_card_title(const std::string& job);

/// Beside the rings in the waste: "Rings for scanning: leave them on until the sheet is scanned."
std::string marks_words();

/// Below the back of a card with the band where the cut may fall: what band and line are.
std::string band_words(const Advice& advice);

/// "A finished card is about 0.38 mm thick, 54 of them about 21 mm."
std::string thickness_words(const CardThickness& thickness);

}  // namespace versolay::words
