#include "imposition/drawn_sheets.h"

#include <algorithm>
#include <cstdint>

#include "core/files.h"
#include "imposition/back_art.h"
#include "imposition/findings.h"
#include "imposition/slug.h"
#include "layout/guides.h"
#include "layout/placement.h"
#include "target/identity.h"

namespace versolay {
namespace {

constexpr double kShortGuideMm = kGuideClearMm + 1.5;
constexpr int kMostSheetsWithMarks = 999;  // their code has three digits for the sheet

/// Another one for every job, and the same for the same job at the same time.
std::string run_of_job(const std::string& job) {
  std::uint32_t hash = 2166136261U;  // FNV-1a
  for (const char c : job + utc_now()) {
    hash = (hash ^ static_cast<unsigned char>(c)) * 16777619U;
  }
  return run_code(hash ^ (hash >> 20));
}

class Builder {
 public:
  Builder(const ImposeRequest& r, const Deck& deck, const SheetPlan& plan, const WasteWords& words)
      : r_(r),
        deck_(deck),
        plan_(plan),
        words_(words),
        axis_(plan.axis()),
        oversize_(plan.back_reach.granted),
        correction_(registration_from(plan.correction.page_from_wanted)) {
    back_places_ = back_places(oversize_);
    if (plan.fitted) fitted_places_ = back_places(plan.fitted->reach);
    if (marks_are_wanted() && plan.sheets <= kMostSheetsWithMarks) {
      run_ = plan.fitted ? plan.fitted->run : run_of_job(r.job());
      marks_ = WasteMarks::fit({.paper = plan.paper,
                                .turn = plan.turn,
                                .grid = plan.grid,
                                .margin_mm = widest_margin_mm(),
                                .front = plan.front_reach(),
                                .back = back_reach(),
                                .correction = correction_,
                                .run = run_,
                                .words = words.marks});
    }
    place_guides_and_slugs();
    if (marks_ && !marks_->place(guides_.drawing, recto_slug_, verso_slug_)) {
      marks_.reset();
      place_guides_and_slugs();
    }
  }

  DrawnSheets build() {
    const std::size_t per_sheet = plan_.grid.cells.size();
    DrawnSheets result;
    for (std::size_t sheet = 0; sheet < static_cast<std::size_t>(plan_.sheets); ++sheet) {
      PdfPage recto{plan_.paper, guides_.drawing};
      PdfPage verso{plan_.paper, {}};
      const SheetBack back = back_of(static_cast<int>(sheet) + 1);
      verso.page_from_content = relabel_affine<PageMm, PageMm>(back.page_from_wanted);
      std::vector<BackCard> backs;
      for (std::size_t i = 0; i < per_sheet; ++i) {
        const std::size_t card = sheet * per_sheet + i;
        if (card >= deck_.cards.size()) break;
        const Cell& cell = plan_.grid.cells[i];
        const CardArt& art = deck_.cards[card];
        recto.images.push_back(placed_image(deck_.images[art.front], art.front,
                                            recto_place(plan_.grid, cell, plan_.front_reach()),
                                            plan_.front_art, plan_.front_reach()));
        backs.push_back({art.back, back.places[i]});
      }
      paint_backs(verso, backs, deck_.images, plan_.back_reach.edges, r_.backs.art, back.reach);
      add_slug(recto, recto_slug_, Side::recto, sheet + 1);
      add_slug(verso, verso_slug_, Side::verso, sheet + 1);
      add_marks(recto, sheet + 1, Side::recto, correction_);
      add_marks(verso, sheet + 1, Side::verso, registration_from(back.page_from_wanted));
      result.pages.push_back(std::move(recto));
      result.pages.push_back(std::move(verso));
    }
    result.back_places = back_places_;
    result.marks = marks_;
    if (marks_) result.run = run_;
    result.warnings = warnings();
    return result;
  }

 private:
  /// How the back of one sheet is printed.
  struct SheetBack {
    const Affine<VersoMm, VersoMm>& page_from_wanted;
    const std::vector<CardPlace>& places;
    Reach reach;
  };

  SheetBack back_of(int sheet) const {
    if (plan_.fitted) {
      const auto fitted = plan_.fitted->page_from_wanted.find(sheet);
      if (fitted != plan_.fitted->page_from_wanted.end()) {
        return {fitted->second, fitted_places_, plan_.fitted->reach};
      }
    }
    return {plan_.correction.page_from_wanted, back_places_, oversize_};
  }

  std::vector<CardPlace> back_places(const Reach& reach) const {
    std::vector<CardPlace> places =
        verso_places(plan_.grid, axis_, reach, plan_.correction.cards_moved_mm);
    if (r_.backs.head_to_foot) {
      for (CardPlace& place : places) place.quarter_turns = (place.quarter_turns + 2) % 4;
    }
    return places;
  }

  /// Marks name the correction, so it must be one that they can name.
  bool marks_are_wanted() const { return r_.marks.registration && coded_correction(correction_); }

  double widest_margin_mm() const {
    const Margins& m = r_.sheet.margins;
    return std::max({m.left_mm, m.top_mm, m.right_mm, m.bottom_mm});
  }

  /// Of the backs beyond their cells, those that are moved by themselves as well.
  Reach back_reach() const {
    double most = 0.0;
    for (const Eigen::Vector2d& move : plan_.correction.cards_moved_mm) {
      most = std::max(most, move.cwiseAbs().maxCoeff());
    }
    return {oversize_.x_mm + most, oversize_.y_mm + most};
  }

  void place_guides_and_slugs() {
    const PageRect area = marks_ ? marks_->area() : printable_area(plan_.paper, r_.sheet.margins);
    recto_slug_ = slug_place(recto_extent(plan_.grid, plan_.front_reach()), area,
                             r_.marks.guides ? kShortGuideMm : 1.0);
    verso_slug_ =
        slug_place(verso_extent(plan_.grid, axis_, oversize_), marks_ ? area : shrunk(area), 0.5);
    if (r_.marks.guides) {
      guides_ =
          cut_guides(plan_.grid, plan_.cuts, recto_slug_ ? without_strip(area, *recto_slug_) : area,
                     plan_.front_reach(), GuideTicks{r_.marks.ticks_mm});
    }
  }

  /// The back page moves: what is at its edge must not move out of the printable area.
  PageRect shrunk(const PageRect& area) const {
    return area.grown(-most_moved_mm(plan_.paper, widest_margin_mm(), correction_));
  }

  void add_marks(PdfPage& page, std::size_t sheet, Side side,
                 const Registration& correction) const {
    if (!marks_) return;
    const auto coded = coded_correction(correction);
    const Drawing marks = marks_->page(static_cast<int>(sheet), side, coded.value_or(correction_));
    page.drawing.insert(page.drawing.end(), marks.begin(), marks.end());
  }

  void add_slug(PdfPage& page, const std::optional<SlugPlace>& place, Side side,
                std::size_t sheet) const {
    if (!place) return;
    const std::string text = words_.slug(static_cast<int>(sheet), plan_.sheets, side);
    const bool upright = place->side == SlugSide::top || place->side == SlugSide::bottom;
    double length = upright ? place->strip.width_mm() : place->strip.height_mm();
    if (plan_.grid.blocks.size() > 1) length /= 2;  // the halving marks are in the middle
    page.drawing.push_back(slug_text(*place, text, length));
  }

  Notices warnings() const {
    Notices list;
    if (r_.marks.guides && !guides_.complete) {
      list.push_back(findings::guides_incomplete());
    }
    if (marks_are_wanted() && !marks_) {
      list.push_back(plan_.sheets > kMostSheetsWithMarks
                         ? findings::too_many_sheets_for_marks(kMostSheetsWithMarks)
                         : findings::no_room_for_marks());
    }
    if ((!recto_slug_ || !verso_slug_) && !marks_) {  // marks name the sheet as well
      list.push_back(findings::no_slug());
    }
    return list;
  }

  const ImposeRequest& r_;
  const Deck& deck_;
  const SheetPlan& plan_;
  const WasteWords& words_;
  std::string run_;
  TurnAxis axis_;
  Reach oversize_;
  Registration correction_;  // of the back page
  std::vector<CardPlace> back_places_;
  std::vector<CardPlace> fitted_places_;
  std::optional<WasteMarks> marks_;
  std::optional<SlugPlace> recto_slug_;
  std::optional<SlugPlace> verso_slug_;
  Guides guides_;
};

}  // namespace

DrawnSheets draw_sheets(const ImposeRequest& request, const Deck& deck, const SheetPlan& plan,
                        const WasteWords& words) {
  return Builder(request, deck, plan, words).build();
}

}  // namespace versolay
