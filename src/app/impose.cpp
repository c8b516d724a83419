#include "app/impose.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "app/art_checks.h"
#include "app/back_art.h"
#include "app/card_preview.h"
#include "app/cut_card.h"
#include "app/deck.h"
#include "app/imposed_pages.h"
#include "app/profile_match.h"
#include "core/files.h"
#include "core/numbers.h"
#include "core/translation.h"
#include "layout/guides.h"
#include "layout/placement.h"
#include "pdf/pdf_document.h"
#include "profile/advise.h"
#include "profile/residual_field.h"
#include "target/identity.h"

namespace versolay {
namespace {

void validate(const ImposeRequest& r) {
  const auto within = [](const char* option, double value, double low, double high,
                         const char* unit) {
    if (!(value >= low && value <= high)) {
      throw Error(
          fmt::format("{} {}", option, format_number(value, 3)),
          tr("must be from {} to {}{}", format_number(low, 0), format_number(high, 0), unit));
    }
  };
  within("--front-bleed", r.front_art.bleed_mm, 0, 20, " mm");
  within("--back-bleed", r.back_art.bleed_mm, 0, 20, " mm");
  within("--ppi", r.wanted_ppi, 30, 4800, "");
  if (r.oversize) {
    within("--oversize", r.oversize->x_mm, 0, 10, " mm");
    within("--oversize", r.oversize->y_mm, 0, 10, " mm");
  }
  if (r.ticks_mm != 0 && r.ticks_mm != 0.1 && r.ticks_mm != 0.25) {
    throw Error("--ticks " + format_number(r.ticks_mm, 3), tr("must be 0.1 or 0.25 mm"));
  }
  check_outputs({r.pdf, r.cut_card}, r.replace);
  if (!r.preview) return;
  within("--corner-radius", r.corner_radius_mm, 0, 20, " mm");
  if (!r.profile) {
    throw Error("--preview", tr("shows how far backs will be off: it needs --profile"));
  }
  make_folder(*r.preview);
}

/// The advice on the profile, where it is needed. Where it is to leave the backs where they are,
/// its oversize covers the mean as well: more than enough for backs that are moved by it.
Result<std::optional<Advice>> needed_advice(const ImposeRequest& r, const CardGrid& grid) {
  if (!r.profile || (r.oversize && !r.preview)) return std::optional<Advice>();
  AdviceRequest request;
  request.grid = grid;
  request.coverage = r.coverage;
  request.confidence = r.confidence;
  request.can_rotate = r.can_rotate;
  request.can_scale = r.can_scale;
  request.can_move_cards = true;
  Result<Advice> advice = advise(*r.profile, request);
  if (!advice) return advice.refusal();
  return std::optional<Advice>(std::move(advice).value());
}

Reach wanted_oversize(const ImposeRequest& r, const std::optional<Advice>& advice) {
  if (r.oversize) return *r.oversize;
  if (!advice) return {};
  return {advice->oversize.x_mm, advice->oversize.y_mm};
}

/// The marks name the correction in whole micrometres and so on; so that much is applied, exactly.
void round_to_what_marks_can_say(Affine<VersoMm, VersoMm>& page_from_wanted) {
  const auto coded = coded_correction(registration_from(page_from_wanted));
  if (coded) page_from_wanted = coded->landed_from_page();
}

/// What the profile moves: the page as far as the user allows, and each back by itself.
struct Correction {
  Affine<VersoMm, VersoMm> page_from_wanted;
  std::vector<Eigen::Vector2d> cards_moved_mm;
};

Correction correction_of(const ImposeRequest& r, const CardGrid& grid, TurnAxis axis) {
  if (!r.profile) return {};
  Registration mean = r.profile->mean;
  if (!r.can_scale) mean.scale_x_ppm = mean.scale_y_ppm = mean.shear_mrad = 0.0;
  if (!r.can_rotate) mean = {.dx_mm = mean.dx_mm, .dy_mm = mean.dy_mm};
  Correction correction{mean.page_from_wanted(), {}};
  if (r.marks) round_to_what_marks_can_say(correction.page_from_wanted);
  if (!r.profile->field.real) return correction;
  std::vector<Point<VersoMm>> centres;
  for (const Cell& cell : grid.cells) centres.push_back(verso_from_recto(axis)(cell.centre));
  for (const Eigen::Vector2d& landed : field_at(r.profile->field, centres).at_mm) {
    correction.cards_moved_mm.push_back(-landed);
  }
  return correction;
}

double most_moved(const std::vector<Eigen::Vector2d>& moves) {
  double most = 0.0;
  for (const Eigen::Vector2d& move : moves) most = std::max(most, move.cwiseAbs().maxCoeff());
  return most;
}

std::vector<std::size_t> used_backs(const Deck& deck) {
  std::set<std::size_t> used;
  for (const CardArt& card : deck.cards) used.insert(card.back);
  return {used.begin(), used.end()};
}

EdgeCounts count_edges(const std::vector<std::size_t>& backs, const std::vector<BackEdge>& edges) {
  EdgeCounts counts;
  for (const std::size_t back : backs) {
    switch (edges[back].kind) {
      case EdgeKind::white:
        ++counts.white;
        break;
      case EdgeKind::plain:
        ++counts.plain;
        break;
      case EdgeKind::pattern:
        ++counts.pattern;
        break;
      case EdgeKind::picture:
        ++counts.picture;
        break;
    }
  }
  return counts;
}

/// Beyond a cut that two cards share, the neighbour's back shows. It does no harm where it looks
/// like the own back going on.
bool neighbours_go_on(const Deck& deck, const std::vector<std::size_t>& backs,
                      const std::vector<BackEdge>& edges, const ArtRules& rules) {
  const bool one_pattern =
      backs.size() == 1 && edges[backs[0]].kind == EdgeKind::pattern &&
      !must_be_enlarged(EdgeKind::pattern, bleed_of(deck.images[backs[0]], rules));
  return one_pattern || share_plain_edge(backs, deck.images, edges);
}

void remark_on_edges(const ImposeRequest& r, const Deck& deck,
                     const std::vector<std::size_t>& backs, const std::vector<BackEdge>& edges,
                     ImposeReport& report) {
  const double oversize = std::max(report.oversize.x_mm, report.oversize.y_mm);
  const EdgeCounts& counts = report.back_edges;
  if (counts.white > 0 && (report.oversize_wanted.x_mm > 0 || report.oversize_wanted.y_mm > 0)) {
    report.warnings.push_back(
        {"white_edge", tr("{} a white edge, so enlarging {} would hide nothing: a back that is off "
                          "shows as a border of uneven width, never as a sliver. {} printed at {} "
                          "own size. versolay advise --border says how even the borders will be.",
                          counts.white == static_cast<int>(backs.size()) ? tr("The backs have")
                                                                         : tr("Some backs have"),
                          counts.white == 1 ? tr("it") : tr("them"),
                          counts.white == 1 ? tr("It is") : tr("They are"),
                          counts.white == 1 ? tr("its") : tr("their"))});
  }
  if (oversize <= 0 || report.grid.cells.size() < 2) return;
  if (report.inner_oversize_mm < oversize && counts.white < static_cast<int>(backs.size())) {
    report.warnings.push_back(
        {"inner_edges",
         tr("Where cards {}, the backs end {}: a sheet that is off shows the neighbour's back "
            "there, and the oversize of {} mm helps at the outer edges only. A gutter of {} mm "
            "(--gutter), or a back with one plain edge colour, helps at all edges.",
            r.gutter_mm > 0 ? tr("have a gutter between them") : tr("touch"),
            r.gutter_mm > 0 ? tr("in the middle of it") : tr("at the common cut"),
            format_number(oversize, 2), format_number(std::ceil(20 * oversize) / 10, 1))});
  }
  for (const std::size_t back : backs) {
    if (edges[back].kind != EdgeKind::plain || edges[back].band_mm >= oversize ||
        r.gutter_mm >= 2 * oversize) {
      continue;
    }
    report.warnings.push_back(
        {"narrow_edge",
         tr("The plain edge of {} is {} mm deep, less than the oversize of {} mm: a sheet that is "
            "further off shows what lies behind it, of the card beside. Make the border at least "
            "{} mm wide, or use --gutter {}.",
            file_of(deck.images[back]), format_number(edges[back].band_mm, 2),
            format_number(oversize, 2), format_number(std::ceil(10 * oversize) / 10, 1),
            format_number(std::ceil(20 * oversize) / 10, 1))});
    break;
  }
}

/// As many cards as fit with their bleed, or what the user asks for.
Result<CardGrid> grid_of(const ImposeRequest& r, const Paper& paper, double bleed_mm) {
  return fit_grid({paper, r.card, r.grid, r.gutter_mm, r.margins, r.blocks, bleed_mm});
}

/// Bleed costs room; where it costs cards, that is worth knowing.
void remark_on_bleed(const ImposeRequest& r, double bleed_mm, ImposeReport& report) {
  if (r.grid || bleed_mm <= 0) return;
  const Result<CardGrid> without = grid_of(r, report.paper, 0.0);
  if (!without || without.value().cells.size() <= report.grid.cells.size()) return;
  report.warnings.push_back(
      {"bleed_costs_cards",
       tr("The bleed of the fronts ({} mm on every side) costs room: without it {} cards would fit "
          "on a sheet instead of {}.",
          format_number(bleed_mm, 2), without.value().cells.size(), report.grid.cells.size())});
}

CutPlan cuts_of(const ImposeRequest& r, const CardGrid& grid) {
  if (!r.laminated) return plan_cuts(grid);
  constexpr double kMostStretch = 0.03;
  for (const double scale : {r.laminated->x, r.laminated->y}) {
    if (std::abs(scale - 1) <= kMostStretch) continue;
    throw Error("--laminated-mm",
                tr("a finished sheet that is {} times as large as it was printed cannot be right: "
                   "at most 3 % are possible. Give measured/printed, such as 263.6/264",
                   format_number(scale, 3)));
  }
  return plan_cuts(grid, r.laminated->x, r.laminated->y);
}

/// Another one for every job, and the same for the same job at the same time.
std::string run_of_job(const std::string& job) {
  std::uint32_t hash = 2166136261U;  // FNV-1a
  for (const char c : job + utc_now()) {
    hash = (hash ^ static_cast<unsigned char>(c)) * 16777619U;
  }
  return run_code(hash ^ (hash >> 20));
}

/// The cards in the order of the sheets.
std::vector<PlacedCard> placed_cards(const Deck& deck, const CardGrid& grid) {
  std::vector<PlacedCard> list;
  for (std::size_t i = 0; i < deck.cards.size(); ++i) {
    const Cell& cell = grid.cells[i % grid.cells.size()];
    const CardArt& card = deck.cards[i];
    list.push_back({static_cast<int>(i / grid.cells.size()) + 1, cell.row, cell.column, card.name,
                    card.note, file_of(deck.images[card.front]), file_of(deck.images[card.back])});
  }
  return list;
}

void append(Notices& to, const Notices& from) { to.insert(to.end(), from.begin(), from.end()); }

std::optional<Refusal> set_up(const ImposeRequest& r, ImposeReport& report) {
  report.paper = r.paper ? *r.paper : r.profile ? r.profile->paper : parse_paper("a4");
  report.turn = r.turn ? *r.turn : r.profile ? r.profile->turn : Turn::long_edge;
  if (!r.profile) return std::nullopt;
  if (const auto no = profile_mismatch(*r.profile, report.paper, report.turn)) return no;
  append(report.warnings, other_setup(*r.profile, r.setup));
  append(report.warnings, remarks_on(*r.profile));
  return std::nullopt;
}

void count_sheets(const Deck& deck, std::size_t per_sheet, ImposeReport& report) {
  report.cards = static_cast<int>(deck.cards.size());
  const int cells = static_cast<int>(per_sheet);
  report.sheets = (report.cards + cells - 1) / cells;
  report.blank_cells = report.sheets * cells - report.cards;
}

void write_outputs(const ImposeRequest& r, const ImposeReport& report, const std::string& job,
                   std::vector<PdfPage> pages, const Deck& deck, const Progress& progress) {
  tell(progress, 0, 1, tr("writing the PDF"));
  std::vector<PdfPage> cut_card = cut_card_pages(
      {job, report.grid, report.cuts, report.paper, report.turn, r.laminated.has_value(),
       GuideTicks{r.ticks_mm},
       report.run.empty() ? std::nullopt : std::optional(report.look_through), report.thickness});
  if (r.cut_card.empty()) pages.insert(pages.end(), cut_card.begin(), cut_card.end());
  const PdfDocument document{job, report.turn, std::move(pages), deck.images};
  write_file_atomically(r.pdf, r.replace, [&](std::FILE* file) { write_pdf(document, file); });
  if (r.cut_card.empty()) return;
  const std::string card = render_pdf({tr("Cut card: {}", job), report.turn, std::move(cut_card)});
  write_file_atomically(r.cut_card, card, r.replace);
}

}  // namespace

Result<ImposeReport> impose(const ImposeRequest& r, const Progress& progress) {
  validate(r);
  ImposeReport report;
  if (const auto no = set_up(r, report)) return *no;
  Result<CardGrid> grid = grid_of(r, report.paper, r.front_art.bleed_mm);
  if (!grid) return grid.refusal();
  const TurnAxis axis = turn_axis(report.turn, report.paper);

  const Deck deck = read_deck(r.fronts, r.back, progress);
  const ArtRules front_art = with_own_bleed(deck, r.front_art);
  if (front_art.bleed_mm != r.front_art.bleed_mm) {
    grid = grid_of(r, report.paper, front_art.bleed_mm);
    if (!grid) return grid.refusal();
  }
  count_sheets(deck, grid.value().cells.size(), report);
  const std::vector<std::size_t> backs = used_backs(deck);
  const std::vector<BackEdge> edges = back_edges(deck, r.card, r.back_art, r.back_edge);
  report.back_edges = count_edges(backs, edges);

  const Result<std::optional<Advice>> advice = needed_advice(r, grid.value());
  if (!advice) return advice.refusal();
  if (advice.value()) append(report.warnings, advice.value()->warnings);
  report.oversize_wanted = wanted_oversize(r, advice.value());
  const bool all_white = report.back_edges.white == static_cast<int>(backs.size());
  Correction correction = correction_of(r, grid.value(), axis);
  report.correction = registration_from(correction.page_from_wanted);

  const Reach front{front_art.bleed_mm, front_art.bleed_mm};
  const Result<Placement> placed =
      place_on_paper({grid.value(), report.paper, report.turn, r.margins, front,
                      all_white ? Reach{} : report.oversize_wanted, correction.page_from_wanted,
                      most_moved(correction.cards_moved_mm)});
  if (!placed) return placed.refusal();
  report.grid = placed.value().grid;
  report.oversize = placed.value().back;
  report.moved_mm = placed.value().moved_mm;
  append(report.warnings, placed.value().remedies);
  correction = correction_of(r, report.grid, axis);  // the field where the cards lie now
  report.cards_moved_mm = correction.cards_moved_mm;
  const double oversize = std::max(report.oversize.x_mm, report.oversize.y_mm);
  report.inner_oversize_mm = neighbours_go_on(deck, backs, edges, r.back_art)
                                 ? oversize
                                 : std::min(r.gutter_mm / 2, oversize);
  const bool lies = report.grid.sideways;
  report.back_enlargement = enlargement_of_backs(
      backs, deck.images, edges, r.back_art, r.card,
      lies ? Reach{report.oversize.y_mm, report.oversize.x_mm} : report.oversize);
  report.cuts = cuts_of(r, report.grid);
  report.placed = placed_cards(deck, report.grid);
  remark_on_edges(r, deck, backs, edges, report);
  remark_on_bleed(r, front_art.bleed_mm, report);
  const ArtFindings findings = check_artwork(deck, r.card, front_art, r.back_art, r.wanted_ppi);
  report.front_ppi = findings.front_ppi;
  report.back_ppi = findings.back_ppi;
  append(report.warnings, findings.warnings);

  const std::string job = r.job.empty() ? r.pdf.stem().string() : r.job;
  std::optional<std::string> marks_run;
  if (r.marks && coded_correction(report.correction)) marks_run = run_of_job(job);
  ImposedPages pages =
      imposed_pages({deck, report.grid, report.cuts, report.paper, report.turn, r.margins,
                     front_art, r.back_art, edges, r.head_to_foot, report.oversize,
                     correction.page_from_wanted, correction.cards_moved_mm, r.guides,
                     GuideTicks{r.ticks_mm}, marks_run, job, r.profile ? r.profile_name : ""});
  append(report.warnings, pages.warnings);
  if (pages.marks) {
    report.run = *marks_run;
    report.look_through = pages.marks->look_through();
  }
  if (r.paper_thickness) {
    report.thickness = card_thickness(*r.paper_thickness, r.pouch_thickness, report.cards);
  }
  if (!r.profile) {
    report.warnings.push_back(
        {"no_profile",
         tr("No profile was given: the backs are printed where they are drawn. Measure your "
            "printer (versolay target) and give --profile to centre them.")});
  }
  if (r.preview) {
    const PreviewCell cell = worst_cell(*r.profile, *advice.value(), axis, deck.cards.size());
    report.preview = write_preview(
        {deck, pages.pages[0], pages.pages[1],
         recto_place(report.grid, report.grid.cells[cell.index], front),
         pages.back_places[cell.index], cell.misses, r.corner_radius_mm, *r.preview, r.replace},
        report.warnings);
  }
  write_outputs(r, report, job, std::move(pages.pages), deck, progress);
  return report;
}

}  // namespace versolay
