#include "app/imposed_pages.h"

#include <fmt/format.h>

#include <algorithm>

#include "app/back_art.h"
#include "app/slug.h"
#include "layout/guides.h"
#include "layout/placement.h"

namespace versolay {
namespace {

constexpr double kShortGuideMm = kGuideClearMm + 1.5;

class Builder {
 public:
  explicit Builder(const ImposedPagesRequest& r)
      : r_(r), axis_(turn_axis(r.turn, r.paper)), front_{r.fronts.bleed_mm, r.fronts.bleed_mm} {
    const PageRect area = printable_area(r.paper, r.margins);
    recto_slug_ = slug_place(recto_extent(r.grid, front_), area, r.guides ? kShortGuideMm : 1.0);
    verso_slug_ = slug_place(verso_extent(r.grid, axis_, r.oversize), shrunk(area), 0.5);
    back_places_ = verso_places(r.grid, axis_, r.oversize, r.cards_moved_mm);
    if (r.head_to_foot) {
      for (CardPlace& place : back_places_) place.quarter_turns = (place.quarter_turns + 2) % 4;
    }
    if (r.guides) {
      guides_ = cut_guides(r.grid, r.cuts, recto_slug_ ? without_strip(area, *recto_slug_) : area,
                           front_);
    }
  }

  ImposedPages build() {
    const std::size_t per_sheet = r_.grid.cells.size();
    const std::size_t sheets = (r_.deck.cards.size() + per_sheet - 1) / per_sheet;
    ImposedPages result;
    for (std::size_t sheet = 0; sheet < sheets; ++sheet) {
      PdfPage recto{r_.paper, guides_.drawing};
      PdfPage verso{r_.paper, {}};
      verso.page_from_content = relabel_affine<PageMm, PageMm>(r_.page_from_wanted);
      std::vector<BackCard> backs;
      for (std::size_t i = 0; i < per_sheet; ++i) {
        const std::size_t card = sheet * per_sheet + i;
        if (card >= r_.deck.cards.size()) break;
        const Cell& cell = r_.grid.cells[i];
        const CardArt& art = r_.deck.cards[card];
        recto.images.push_back(placed_image(r_.deck.images[art.front], art.front,
                                            recto_place(r_.grid, cell, front_), r_.fronts, front_));
        backs.push_back({art.back, back_places_[i]});
      }
      paint_backs(verso, backs, r_.deck.images, r_.back_edges, r_.backs, r_.oversize);
      add_slug(recto, recto_slug_, "front", sheet + 1, sheets);
      add_slug(verso, verso_slug_, "back", sheet + 1, sheets);
      result.pages.push_back(std::move(recto));
      result.pages.push_back(std::move(verso));
    }
    result.back_places = back_places_;
    result.warnings = warnings();
    return result;
  }

 private:
  /// The back page moves: what stands at its edge must not move out of the printable area.
  PageRect shrunk(const PageRect& area) const {
    double most = 0.0;
    for (const Point<VersoMm>& corner : {Point<VersoMm>{area.left_mm, area.top_mm},
                                         {area.right_mm, area.top_mm},
                                         {area.left_mm, area.bottom_mm},
                                         {area.right_mm, area.bottom_mm}}) {
      most =
          std::max(most, (r_.page_from_wanted(corner).vec() - corner.vec()).cwiseAbs().maxCoeff());
    }
    return {area.left_mm + most, area.top_mm + most, area.right_mm - most, area.bottom_mm - most};
  }

  void add_slug(PdfPage& page, const std::optional<SlugPlace>& place, const char* side,
                std::size_t sheet, std::size_t sheets) const {
    if (!place) return;
    const std::string text =
        fmt::format("{}  \u00b7  sheet {} of {}, {}  \u00b7  turn on the {}  \u00b7  {}", r_.job,
                    sheet, sheets, side, r_.turn == Turn::long_edge ? "long edge" : "short edge",
                    r_.profile_name.empty() ? "no profile" : "profile " + r_.profile_name);
    const bool upright = place->side == SlugSide::top || place->side == SlugSide::bottom;
    double length = upright ? place->strip.width_mm() : place->strip.height_mm();
    if (r_.grid.blocks.size() > 1) length /= 2;  // the halving marks stand in the middle
    page.drawing.push_back(slug_text(*place, text, length));
  }

  Notices warnings() const {
    Notices list;
    if (r_.guides && !guides_.complete) {
      list.push_back(
          {"guides_incomplete",
           "Some edges have less than 2 mm of waste, so some cut guides are missing. Use "
           "fewer cards, or cut those edges by the fence."});
    }
    if (!recto_slug_ || !verso_slug_) {
      list.push_back({"no_slug",
                      "The waste has no room for the line that names job, sheet and "
                      "side: number the sheets in pencil."});
    }
    return list;
  }

  const ImposedPagesRequest& r_;
  TurnAxis axis_;
  Reach front_;
  std::vector<CardPlace> back_places_;
  std::optional<SlugPlace> recto_slug_;
  std::optional<SlugPlace> verso_slug_;
  Guides guides_;
};

}  // namespace

ImposedPages imposed_pages(const ImposedPagesRequest& request) { return Builder(request).build(); }

}  // namespace versolay
