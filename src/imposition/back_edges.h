// How the back of a card is extended beyond the cut, which depends on the kind of its edge.
#pragma once

#include <optional>
#include <vector>

#include "artwork/picture_edge.h"
#include "imposition/deck.h"
#include "layout/artwork_place.h"

namespace versolay {

struct BackEdge {
  EdgeKind kind = EdgeKind::picture;
  std::vector<double> colour;  // of a plain edge, in the colour space of the image
  double band_mm = 0.0;        // depth of a plain or white edge on the card
};

/// How the artwork of one side is brought to the size of the card.
struct ArtRules {
  ArtFit fit = ArtFit::fill;
  double bleed_mm = 0.0;  // what the artwork has of its own; a PDF with a TrimBox knows better
};

ArtSize size_of(const Artwork& art);
double bleed_of(const Artwork& art, const ArtRules& rules);

/// The rules for the fronts, with their own bleed: as given by the user, otherwise the smallest
/// bleed of the fronts in a deck of PDF pages.
ArtRules with_own_bleed(const Deck& deck, ArtRules rules);

/// The edges of all images that are used as backs, by their index in the deck (others are left as
/// they are), as far as the cards show them. Pages of a PDF and CMYK JPEGs are not looked at: they
/// count as pictures.
/// @param stated  what the user says about the edge; nullopt: look.
/// Throws Error when a stated plain edge has no colour that can be read.
std::vector<BackEdge> back_edges(const Deck& deck, CardSize card, const ArtRules& rules,
                                 std::optional<EdgeKind> stated);

}  // namespace versolay
