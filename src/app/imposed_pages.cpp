#include "app/imposed_pages.h"

#include <algorithm>

#include "app/back_art.h"
#include "app/slug.h"
#include "core/translation.h"
#include "layout/guides.h"
#include "layout/placement.h"

namespace versolay {
namespace {

constexpr double kShortGuideMm = kGuideClearMm + 1.5;
constexpr std::size_t kMostSheetsWithMarks = 999;  // their code has three digits for the sheet

class Builder {
 public:
  explicit Builder(const ImposedPagesRequest& r)
      : r_(r), axis_(turn_axis(r.turn, r.paper)), front_{r.fronts.bleed_mm, r.fronts.bleed_mm} {
    back_places_ = verso_places(r.grid, axis_, r.oversize, r.cards_moved_mm);
    if (r.head_to_foot) {
      for (CardPlace& place : back_places_) place.quarter_turns = (place.quarter_turns + 2) % 4;
    }
    if (r.marks_run && sheets() <= kMostSheetsWithMarks) {
      marks_ = WasteMarks::fit({r.paper, r.turn, r.grid, widest_margin_mm(), front_, back_reach(),
                                registration_from(r.page_from_wanted), *r.marks_run});
    }
    place_guides_and_slugs();
    if (marks_ && !marks_->place(guides_.drawing, recto_slug_, verso_slug_)) {
      marks_.reset();
      place_guides_and_slugs();
    }
  }

  ImposedPages build() {
    const std::size_t per_sheet = r_.grid.cells.size();
    ImposedPages result;
    for (std::size_t sheet = 0; sheet < sheets(); ++sheet) {
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
      add_slug(recto, recto_slug_, tr("front"), sheet + 1);
      add_slug(verso, verso_slug_, tr("back"), sheet + 1);
      add_marks(recto, sheet + 1, Side::recto);
      add_marks(verso, sheet + 1, Side::verso);
      result.pages.push_back(std::move(recto));
      result.pages.push_back(std::move(verso));
    }
    result.back_places = back_places_;
    result.marks = marks_;
    result.warnings = warnings();
    return result;
  }

 private:
  std::size_t sheets() const {
    const std::size_t per_sheet = r_.grid.cells.size();
    return (r_.deck.cards.size() + per_sheet - 1) / per_sheet;
  }

  double widest_margin_mm() const {
    const Margins& m = r_.margins;
    return std::max({m.left_mm, m.top_mm, m.right_mm, m.bottom_mm});
  }

  /// Of the backs beyond their cells, those that are moved by themselves as well.
  Reach back_reach() const {
    double most = 0.0;
    for (const Eigen::Vector2d& move : r_.cards_moved_mm) {
      most = std::max(most, move.cwiseAbs().maxCoeff());
    }
    return {r_.oversize.x_mm + most, r_.oversize.y_mm + most};
  }

  void place_guides_and_slugs() {
    const PageRect area = marks_ ? marks_->area() : printable_area(r_.paper, r_.margins);
    recto_slug_ = slug_place(recto_extent(r_.grid, front_), area, r_.guides ? kShortGuideMm : 1.0);
    verso_slug_ =
        slug_place(verso_extent(r_.grid, axis_, r_.oversize), marks_ ? area : shrunk(area), 0.5);
    if (r_.guides) {
      guides_ = cut_guides(r_.grid, r_.cuts, recto_slug_ ? without_strip(area, *recto_slug_) : area,
                           front_, r_.ticks);
    }
  }

  /// The back page moves: what stands at its edge must not move out of the printable area.
  PageRect shrunk(const PageRect& area) const {
    const double most =
        most_moved_mm(r_.paper, widest_margin_mm(), registration_from(r_.page_from_wanted));
    return {area.left_mm + most, area.top_mm + most, area.right_mm - most, area.bottom_mm - most};
  }

  void add_marks(PdfPage& page, std::size_t sheet, Side side) const {
    if (!marks_) return;
    const Drawing marks = marks_->page(static_cast<int>(sheet), side);
    page.drawing.insert(page.drawing.end(), marks.begin(), marks.end());
  }

  void add_slug(PdfPage& page, const std::optional<SlugPlace>& place, const char* side,
                std::size_t sheet) const {
    if (!place) return;
    const std::string text =
        tr("{}  \u00b7  sheet {} of {}, {}  \u00b7  turn on the {}  \u00b7  {}", r_.job, sheet,
           sheets(), side, r_.turn == Turn::long_edge ? tr("long edge") : tr("short edge"),
           r_.profile_name.empty() ? tr("no profile") : tr("profile {}", r_.profile_name));
    const bool upright = place->side == SlugSide::top || place->side == SlugSide::bottom;
    double length = upright ? place->strip.width_mm() : place->strip.height_mm();
    if (r_.grid.blocks.size() > 1) length /= 2;  // the halving marks stand in the middle
    page.drawing.push_back(slug_text(*place, text, length));
  }

  Notices warnings() const {
    Notices list;
    if (r_.guides && !guides_.complete) {
      list.push_back({"guides_incomplete",
                      tr("Some edges have less than 2 mm of waste, so some cut guides are missing. "
                         "Use fewer cards, or cut those edges by the fence.")});
    }
    if (r_.marks_run && !marks_) {
      list.push_back(
          {"no_marks",
           sheets() > kMostSheetsWithMarks
               ? tr("More than {} sheets: they are printed without registration marks.",
                    kMostSheetsWithMarks)
               : std::string(
                     tr("The waste is too narrow for registration marks: they need 6.2 mm at "
                        "two opposite edges, inside the margins. The cards are as they should "
                        "be, but scans of these sheets will not tell how the printer did. Fewer "
                        "cards on a sheet (--grid), a smaller --gutter or a larger paper make "
                        "room; --no-marks does without them and without this remark."))});
    }
    if ((!recto_slug_ || !verso_slug_) && !marks_) {  // marks name the sheet as well
      list.push_back({"no_slug", tr("The waste has no room for the line that names job, sheet and "
                                    "side: number the sheets in pencil.")});
    }
    return list;
  }

  const ImposedPagesRequest& r_;
  TurnAxis axis_;
  Reach front_;
  std::vector<CardPlace> back_places_;
  std::optional<WasteMarks> marks_;
  std::optional<SlugPlace> recto_slug_;
  std::optional<SlugPlace> verso_slug_;
  Guides guides_;
};

}  // namespace

ImposedPages imposed_pages(const ImposedPagesRequest& request) { return Builder(request).build(); }

}  // namespace versolay
