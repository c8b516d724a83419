#include "imposition/back_art.h"

#include <algorithm>
#include <cmath>

namespace versolay {
namespace {

constexpr double kSameColour = 1.5 / 255;

bool same_edge(const Artwork& a, const BackEdge& edge_a, const Artwork& b, const BackEdge& edge_b) {
  const auto& one = std::get<CodedImage>(a);
  const auto& other = std::get<CodedImage>(b);
  if (one.components != other.components || one.icc_profile != other.icc_profile) return false;
  return std::equal(edge_a.colour.begin(), edge_a.colour.end(), edge_b.colour.begin(),
                    edge_b.colour.end(),
                    [](double x, double y) { return std::abs(x - y) <= kSameColour; });
}

/// The image at its own size, and its eight repetitions as far as they show within the ink.
void add_tiles(PdfPage& page, const PlacedImage& own, const CardPlace& place) {
  for (int row = -1; row <= 1; ++row) {
    for (int column = -1; column <= 1; ++column) {
      const double dx = column * place.cell.width_mm();
      const double dy = row * place.cell.height_mm();
      PlacedImage tile = own;
      tile.centre = {own.centre.x + dx, own.centre.y + dy};
      tile.crop = place.ink.overlap({place.cell.left_mm + dx, place.cell.top_mm + dy,
                                     place.cell.right_mm + dx, place.cell.bottom_mm + dy});
      if (tile.crop.width_mm() > 0 && tile.crop.height_mm() > 0) page.images.push_back(tile);
    }
  }
}

}  // namespace

PlacedImage placed_image(const Artwork& art, std::size_t index, const CardPlace& place,
                         const ArtRules& rules, Reach reach) {
  const ImagePlace image = place_image(place, size_of(art), rules.fit, bleed_of(art, rules), reach);
  return {index, image.centre, image.width_mm, image.height_mm, place.quarter_turns, place.ink};
}

bool must_be_enlarged(EdgeKind kind, double bleed_mm) {
  return kind == EdgeKind::picture || (kind == EdgeKind::pattern && bleed_mm > 0);
}

double enlargement_of_backs(std::span<const std::size_t> images, const std::vector<Artwork>& art,
                            const std::vector<BackEdge>& edges, const ArtRules& rules,
                            CardSize card, Reach reach) {
  const CardPlace place{{0, 0, card.width_mm, card.height_mm}, {}, 0};
  double most = 1.0;
  for (const std::size_t i : images) {
    const double bleed = bleed_of(art[i], rules);
    if (!must_be_enlarged(edges[i].kind, bleed)) continue;
    const ImagePlace image = place_image(place, size_of(art[i]), rules.fit, bleed, reach);
    most = std::max(most, image.enlargement);
  }
  return most;
}

bool share_plain_edge(std::span<const std::size_t> images, const std::vector<Artwork>& art,
                      const std::vector<BackEdge>& edges) {
  return !images.empty() && std::all_of(images.begin(), images.end(), [&](std::size_t i) {
    return edges[i].kind == EdgeKind::plain &&
           same_edge(art[i], edges[i], art[images[0]], edges[images[0]]);
  });
}

void paint_backs(PdfPage& page, std::span<const BackCard> cards, const std::vector<Artwork>& art,
                 const std::vector<BackEdge>& edges, const ArtRules& rules, Reach reach) {
  std::vector<std::size_t> images;
  for (const BackCard& card : cards) images.push_back(card.image);
  const bool one_field = share_plain_edge(images, art, edges);
  for (const BackCard& card : cards) {
    const BackEdge& edge = edges[card.image];
    const bool enlarge = must_be_enlarged(edge.kind, bleed_of(art[card.image], rules));
    const PlacedImage own =
        placed_image(art[card.image], card.image, card.place, rules, enlarge ? reach : Reach{});
    if (edge.kind == EdgeKind::plain) {
      const PageRect field =
          one_field ? card.place.cell.grown(reach.x_mm, reach.y_mm) : card.place.ink;
      page.fields.push_back({field, one_field ? images[0] : card.image,
                             edges[one_field ? images[0] : card.image].colour});
    }
    if (edge.kind == EdgeKind::pattern && !enlarge) {
      add_tiles(page, own, card.place);
    } else {
      page.images.push_back(own);
    }
  }
}

}  // namespace versolay
