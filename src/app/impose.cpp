#include "app/impose.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "app/cut_card.h"
#include "app/deck.h"
#include "app/imposed_pages.h"
#include "app/profile_match.h"
#include "core/files.h"
#include "core/numbers.h"
#include "layout/guides.h"
#include "layout/placement.h"
#include "pdf/pdf_document.h"
#include "profile/advise.h"

namespace versolay {
namespace {

constexpr double kLowPpi = 200.0;
constexpr double kAspectTolerance = 0.01;

void validate(const ImposeRequest& r) {
  const auto within = [](const char* option, double value, double high) {
    if (!(value >= 0 && value <= high)) {
      throw Error(fmt::format("{} {}", option, format_number(value, 3)),
                  fmt::format("must be from 0 to {} mm", format_number(high, 0)));
    }
  };
  within("--front-bleed", r.front_bleed_mm, 20);
  within("--back-bleed", r.back_bleed_mm, 20);
  if (r.oversize) {
    within("--oversize", r.oversize->x_mm, 10);
    within("--oversize", r.oversize->y_mm, 10);
  }
  if (r.pdf == r.cut_card) throw Error(r.pdf.string(), "cannot hold both the job and its cut card");
  check_output(r.pdf, r.replace);
  check_output(r.cut_card, r.replace);
}

/// The oversize of the request, or that of the advice on the profile. Where the advice is to leave
/// the backs where they are, its oversize covers the mean as well: more than enough for backs that
/// are moved by it.
Result<Reach> wanted_oversize(const ImposeRequest& r, const CardGrid& grid, Notices& warnings) {
  if (r.oversize) return *r.oversize;
  if (!r.profile) return Reach{};
  AdviceRequest request;
  request.grid = grid;
  request.coverage = r.coverage;
  request.confidence = r.confidence;
  const Result<Advice> advice = advise(*r.profile, request);
  if (!advice) return advice.refusal();
  const Notices& remarks = advice.value().warnings;
  warnings.insert(warnings.end(), remarks.begin(), remarks.end());
  return Reach{advice.value().oversize.x_mm, advice.value().oversize.y_mm};
}

/// Remarks on the images of one side, gathered so that a hundred cards make one sentence.
class ImageFindings {
 public:
  explicit ImageFindings(std::string side) : side_(std::move(side)) {}

  void add(const CodedImage& image, const ImagePlace& place) {
    const double ppi = image.seen_width_px() / place.width_mm * kMmPerInch;
    ppi_.lowest = count_ == 0 ? ppi : std::min(ppi_.lowest, ppi);
    ppi_.highest = count_ == 0 ? ppi : std::max(ppi_.highest, ppi);
    ++count_;
    if (ppi < kLowPpi) {
      ++coarse_;
      if (coarsest_.empty() || ppi <= ppi_.lowest) coarsest_ = image.file;
    }
    if (std::abs(place.aspect_error) > kAspectTolerance) {
      ++misshapen_;
      if (std::abs(place.aspect_error) > std::abs(worst_aspect_)) {
        worst_aspect_ = place.aspect_error;
        worst_shape_ = fmt::format("{} ({} x {} px)", image.file, image.seen_width_px(),
                                   image.seen_height_px());
      }
    }
  }

  EffectivePpi ppi() const { return ppi_; }

  void report(Notices& notices, CardSize with_bleed) const {
    if (coarse_ > 0) {
      notices.push_back(
          {"low_resolution",
           fmt::format("{} of {} {} images have less than {} pixels per inch when printed; the "
                       "coarsest, {}, has {}. They will look soft: export them larger (300 ppi: "
                       "{} x {} px).",
                       coarse_, count_, side_, format_number(kLowPpi, 0), coarsest_,
                       format_number(ppi_.lowest, 0),
                       std::ceil(artwork_px_from_mm(with_bleed.width_mm, 300)),
                       std::ceil(artwork_px_from_mm(with_bleed.height_mm, 300)))});
    }
    if (misshapen_ > 0) {
      notices.push_back(
          {"wrong_aspect",
           fmt::format("{} of {} {} images do not have the shape of the card; the worst, {}, is {} "
                       "% too {} for {} x {} mm. They fill the card and lose the excess on both "
                       "sides.",
                       misshapen_, count_, side_, worst_shape_,
                       format_fixed(std::abs(worst_aspect_) * 100, 1),
                       worst_aspect_ > 0 ? "wide" : "high", format_number(with_bleed.width_mm, 2),
                       format_number(with_bleed.height_mm, 2))});
    }
  }

 private:
  std::string side_;
  EffectivePpi ppi_;
  int count_ = 0;
  int coarse_ = 0;
  int misshapen_ = 0;
  double worst_aspect_ = 0.0;
  std::string coarsest_;
  std::string worst_shape_;
};

void check_images(const ImposeRequest& r, const Deck& deck, ImposeReport& report) {
  const Cell& cell = report.grid.cells.front();
  const TurnAxis axis = turn_axis(report.turn, report.paper);
  ImageFindings fronts("front");
  ImageFindings backs("back");
  std::vector<std::pair<bool, bool>> seen(deck.images.size());
  for (const CardArt& card : deck.cards) {
    const auto check = [&](std::size_t index, bool& done, ImageFindings& findings,
                           const CardPlace& place, double bleed, Reach reach) {
      if (done) return;
      done = true;
      const CodedImage& image = deck.images[index];
      findings.add(image, fill(place, image.seen_width_px(), image.seen_height_px(), bleed, reach));
    };
    const Reach front{r.front_bleed_mm, r.front_bleed_mm};
    check(card.front, seen[card.front].first, fronts, recto_place(report.grid, cell, front),
          r.front_bleed_mm, front);
    check(card.back, seen[card.back].second, backs,
          verso_place(report.grid, cell, axis, report.oversize), r.back_bleed_mm, report.oversize);
  }
  report.front_ppi = fronts.ppi();
  report.back_ppi = backs.ppi();
  const auto with_bleed = [&](double bleed) -> CardSize {
    return {r.card.width_mm + 2 * bleed, r.card.height_mm + 2 * bleed};
  };
  fronts.report(report.warnings, with_bleed(r.front_bleed_mm));
  backs.report(report.warnings, with_bleed(r.back_bleed_mm));
}

CutPlan cuts_of(const ImposeRequest& r, const CardGrid& grid) {
  if (!r.block_after_laminating) return plan_cuts(grid);
  const CardBlock& block = grid.blocks.front();
  const double x = r.block_after_laminating->width_mm / block.width_mm;
  const double y = r.block_after_laminating->height_mm / block.height_mm;
  constexpr double kMostStretch = 0.03;
  if (!(std::abs(x - 1) <= kMostStretch && std::abs(y - 1) <= kMostStretch)) {
    throw Error("--after-laminating",
                fmt::format("the block of cards is printed {} x {} mm; a measured size more than 3 "
                            "% off cannot be right. Measure from guide to guide: width x height",
                            format_number(block.width_mm, 2), format_number(block.height_mm, 2)));
  }
  return plan_cuts(grid, x, y);
}

}  // namespace

Result<ImposeReport> impose(const ImposeRequest& r, const Progress& progress) {
  validate(r);
  ImposeReport report;
  report.paper = r.paper ? *r.paper : r.profile ? r.profile->paper : parse_paper("a4");
  report.turn = r.turn ? *r.turn : r.profile ? r.profile->turn : Turn::long_edge;
  if (r.profile) {
    if (const auto no = profile_mismatch(*r.profile, report.paper, report.turn)) return *no;
  }
  const Result<CardGrid> grid =
      fit_grid({report.paper, r.card, r.grid, r.gutter_mm, r.margin_mm, r.blocks});
  if (!grid) return grid.refusal();

  const Deck deck = read_deck(r.fronts, r.back, progress);
  report.cards = static_cast<int>(deck.cards.size());
  const int per_sheet = static_cast<int>(grid.value().cells.size());
  report.sheets = (report.cards + per_sheet - 1) / per_sheet;
  report.blank_cells = report.sheets * per_sheet - report.cards;

  const Result<Reach> wanted = wanted_oversize(r, grid.value(), report.warnings);
  if (!wanted) return wanted.refusal();
  report.oversize_wanted = wanted.value();
  Affine<VersoMm, VersoMm> page_from_wanted;
  if (r.profile) {
    page_from_wanted = r.profile->mean.page_from_wanted();
    if (const auto remark = unproven_shift(*r.profile)) report.warnings.push_back(*remark);
  }
  report.correction = registration_from(page_from_wanted);

  const Result<Placement> placed =
      place_on_paper({grid.value(), report.paper, report.turn, r.margin_mm,
                      Reach{r.front_bleed_mm, r.front_bleed_mm}, wanted.value(), page_from_wanted});
  if (!placed) return placed.refusal();
  report.grid = placed.value().grid;
  report.oversize = placed.value().back;
  report.moved_mm = placed.value().moved_mm;
  report.inner_oversize_mm =
      std::min(r.gutter_mm / 2, std::min(report.oversize.x_mm, report.oversize.y_mm));
  const Notices& remedies = placed.value().remedies;
  report.warnings.insert(report.warnings.end(), remedies.begin(), remedies.end());
  report.cuts = cuts_of(r, report.grid);
  check_images(r, deck, report);

  const std::string job = r.job.empty() ? r.pdf.stem().string() : r.job;
  const ImposedPages pages =
      imposed_pages({deck, report.grid, report.cuts, report.paper, report.turn, r.margin_mm,
                     r.front_bleed_mm, r.back_bleed_mm, report.oversize, page_from_wanted, r.guides,
                     job, r.profile ? r.profile_name : ""});
  report.warnings.insert(report.warnings.end(), pages.warnings.begin(), pages.warnings.end());
  if (!r.profile) {
    report.warnings.push_back(
        {"no_profile",
         "No profile was given: the backs are printed where they are drawn. Measure your printer "
         "(versolay target) and give --profile to centre them."});
  }

  tell(progress, 0, 1, "writing the PDF");
  const std::string pdf = render_pdf({job, report.turn, pages.pages, deck.images});
  const std::string cut_card =
      render_pdf({"Cut card: " + job,
                  report.turn,
                  {cut_card_page({job, report.grid, report.cuts, report.paper,
                                  r.block_after_laminating.has_value()})}});
  write_file_atomically(r.pdf, pdf, r.replace);
  write_file_atomically(r.cut_card, cut_card, r.replace);
  return report;
}

}  // namespace versolay
