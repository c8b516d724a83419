#include "imposition/back_edges.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "artwork/middle_part.h"
#include "core/numbers.h"
#include "core/parallel.h"
#include "imposition/findings.h"
#include "versolay/result.h"

namespace versolay {
namespace {

constexpr double kLeastBandMm = 0.5;

bool can_be_looked_at(const Artwork& art) {
  const auto* image = std::get_if<CodedImage>(&art);
  return image != nullptr && !(image->coding == PixelCoding::jpeg && image->components == 4);
}

BackEdge looked_at(const Artwork& art, CardSize card, const ArtRules& rules,
                   std::optional<EdgeKind> stated) {
  const ArtSize size = size_of(art);
  const double bleed = bleed_of(art, rules);
  const CardPlace place{{0, 0, card.width_mm, card.height_mm}, {}, 0};
  const ImagePlace image = place_image(place, size, rules.fit, bleed, {});
  const double mm_per_px = image.width_mm / size.width;
  const auto& file = std::get<CodedImage>(art);
  // Where the picture loses its excess, the rim is what is left of it.
  const auto px_shown = [&](double card_mm) {
    return static_cast<int>(std::lround((card_mm + 2 * bleed) / mm_per_px));
  };
  const Raster pixels = middle_part(read_raster(file.file, file.page), px_shown(card.width_mm),
                                    px_shown(card.height_mm));
  const ArtEdge edge =
      examine_edge(pixels, static_cast<int>(std::ceil((kLeastBandMm + bleed) / mm_per_px)));
  return {stated.value_or(edge.kind), edge.colour, edge.band_px * mm_per_px - bleed};
}

}  // namespace

ArtSize size_of(const Artwork& art) {
  if (const auto* page = std::get_if<PageArt>(&art)) return {page->width_mm, page->height_mm, 1.0};
  const auto& image = std::get<CodedImage>(art);
  const auto ppi = image.lies() ? image.ppi_y : image.ppi_x;
  return {static_cast<double>(image.seen_width_px()), static_cast<double>(image.seen_height_px()),
          ppi ? kMmPerInch / *ppi : 0.0};
}

double bleed_of(const Artwork& art, const ArtRules& rules) {
  const auto* page = std::get_if<PageArt>(&art);
  return page != nullptr && page->bleed_mm > 0 ? page->bleed_mm : rules.bleed_mm;
}

ArtRules with_own_bleed(const Deck& deck, ArtRules rules) {
  if (rules.bleed_mm > 0 || deck.cards.empty()) return rules;
  double least = std::numeric_limits<double>::max();
  for (const CardArt& card : deck.cards) {
    least = std::min(least, bleed_of(deck.images[card.front], rules));
  }
  rules.bleed_mm = least;
  return rules;
}

std::vector<BackEdge> back_edges(const Deck& deck, CardSize card, const ArtRules& rules,
                                 std::optional<EdgeKind> stated) {
  std::vector<bool> is_back(deck.images.size());
  for (const CardArt& one : deck.cards) is_back[one.back] = true;
  std::vector<BackEdge> edges(deck.images.size());
  for_each_item(static_cast<int>(edges.size()), 1, 0, [&]() -> std::function<void(int)> {
    return [&](int i) {
      const auto index = static_cast<std::size_t>(i);
      if (!is_back[index]) return;
      const Artwork& art = deck.images[index];
      if (can_be_looked_at(art)) {
        edges[index] = looked_at(art, card, rules, stated);
      } else if (stated == EdgeKind::plain) {
        throw Error(file_of(art), findings::edge_colour_unreadable());
      } else if (stated) {
        edges[index].kind = *stated;
      }
    };
  });
  return edges;
}

}  // namespace versolay
