// What is painted on a back page for every card.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "imposition/back_edges.h"
#include "layout/artwork_place.h"
#include "pdf/pdf_document.h"

namespace versolay {

/// The back of one card on its page.
struct BackCard {
  std::size_t image = 0;  // index into the deck's images
  CardPlace place;        // with the reach that was granted
};

/// Paints the backs of one page so that nothing depends on the order of painting:
///  white    at its own size: nothing is printed at the cut anyway
///  plain    at its own size, on a field of its edge colour that goes on beyond the cut; where all
///           backs of the page have the same edge the fields flow together
///  pattern  at its own size and repeated beyond the cut; with a bleed of its own, as a picture
///  picture  enlarged equally in both directions until it reaches far enough, if necessary
/// Ink of different backs ends halfway between the cards.
void paint_backs(PdfPage& page, std::span<const BackCard> cards, const std::vector<Artwork>& art,
                 const std::vector<BackEdge>& edges, const ArtRules& rules, Reach reach);

/// The fronts are painted in the same way as pictures.
PlacedImage placed_image(const Artwork& art, std::size_t index, const CardPlace& place,
                         const ArtRules& rules, Reach reach);

/// Does a back go on beyond the cut by what it shows itself, enlarged where that is not enough?
/// A pattern that has a bleed cannot be repeated: its period is not known.
bool must_be_enlarged(EdgeKind kind, double bleed_mm);

/// By how much these backs are enlarged at most; 1: all reach far enough as they are.
/// @param card, reach  of the upright card.
double enlargement_of_backs(std::span<const std::size_t> images, const std::vector<Artwork>& art,
                            const std::vector<BackEdge>& edges, const ArtRules& rules,
                            CardSize card, Reach reach);

/// Do all these backs have one plain edge in the same colour?
bool share_plain_edge(std::span<const std::size_t> images, const std::vector<Artwork>& art,
                      const std::vector<BackEdge>& edges);

}  // namespace versolay
