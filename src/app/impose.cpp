#include "app/impose.h"

#include <set>

#include "core/field_range.h"
#include "core/files.h"
#include "imposition/card_backs.h"
#include "imposition/card_preview.h"
#include "imposition/drawn_sheets.h"
#include "imposition/findings.h"
#include "imposition/fitted_sheets.h"
#include "pdf/pdf_document.h"
#include "report/cut_card.h"
#include "words/job_words.h"

namespace versolay {
namespace {

void validate(const ImposeRequest& r) {
  require_in("front_bleed_mm", r.cards.front_art.bleed_mm, 0, 20);
  require_in("back_bleed_mm", r.backs.art.bleed_mm, 0, 20);
  require_in("ppi", r.cards.wanted_ppi, 30, 4800);
  if (r.backs.oversize) {
    require_in("oversize_mm", r.backs.oversize->x_mm, 0, 10);
    require_in("oversize_mm", r.backs.oversize->y_mm, 0, 10);
  }
  const double ticks_mm = r.marks.ticks_mm;
  if (ticks_mm != 0 && ticks_mm != 0.1 && ticks_mm != 0.25) {
    throw BadField("ticks_mm", findings::ticks_out_of_range(Length{ticks_mm}));
  }
  if (!r.outputs.preview) return;
  require_in("corner_radius_mm", r.outputs.corner_radius_mm, 0, 20);
  if (!r.backs.profile) throw BadField("preview", findings::preview_needs_profile());
}

/// What the finished cards of the cell that is worst off will look like.
void preview(const ImposeRequest& r, const Deck& deck, const DrawnSheets& sheets,
             ImposeReport& report) {
  const SheetPlan& plan = report.plan;
  const PreviewCell cell =
      worst_cell(*r.backs.profile, *plan.advice, plan.axis(), deck.cards.size());
  const CardPlace front = recto_place(plan.grid, plan.grid.cells[cell.index], plan.front_reach());
  report.preview = write_preview({.deck = deck,
                                  .recto = sheets.pages[0],
                                  .verso = sheets.pages[1],
                                  .front = front,
                                  .back = sheets.back_places[cell.index],
                                  .misses = cell.misses,
                                  .band = words::band_words(*plan.advice),
                                  .corner_radius_mm = r.outputs.corner_radius_mm,
                                  .folder = *r.outputs.preview,
                                  .replace = r.outputs.replace},
                                 report.warnings);
}

std::set<int> fitted_list(const SheetPlan& plan) {
  std::set<int> list;
  if (!plan.fitted) return list;
  for (const auto& [sheet, page] : plan.fitted->page_from_wanted) list.insert(sheet);
  return list;
}

void warn_of_sheets_not_fitted(ImposeReport& report) {
  std::vector<std::string> names;
  for (const int sheet : sheets_not_fitted(report.plan)) names.push_back(std::to_string(sheet));
  if (!names.empty()) report.warnings.push_back(findings::sheets_not_fitted(names));
}

/// The fronts are printed already.
void keep_backs(std::vector<PdfPage>& pages) {
  std::vector<PdfPage> backs;
  for (std::size_t i = 1; i < pages.size(); i += 2) backs.push_back(std::move(pages[i]));
  pages = std::move(backs);
}

std::vector<PdfPage> cut_card_of(const ImposeRequest& r, const ImposeReport& report) {
  CutCardRequest card;
  card.job = r.job();
  card.grid = report.plan.grid;
  card.plan = report.plan.cuts;
  card.sheet = report.plan.paper;
  card.turn = report.plan.turn;
  card.laminated_settings = r.cutting.laminated.has_value();
  card.ticks = GuideTicks{r.marks.ticks_mm};
  if (!report.run.empty()) card.look_through = report.look_through;
  card.thickness = report.thickness;
  return cut_card_pages(card);
}

void write(const ImposeRequest& r, const Deck& deck, const ImposeReport& report,
           std::vector<PdfPage> pages, const std::vector<CardPlace>& back_places) {
  const Turn turn = report.plan.turn;
  std::vector<PdfPage> cut_card = cut_card_of(r, report);
  const bool apart = !r.outputs.cut_card.empty();
  if (!apart) pages.insert(pages.end(), cut_card.begin(), cut_card.end());
  PdfDocument document{r.job(), turn, std::move(pages), deck.images};
  if (r.backs.profile)
    document.backs_moved = registration_from(report.plan.correction.page_from_wanted);
  if (!report.plan.fitted) document.cards = cards_note(report.plan, back_places);
  write_file_atomically(r.outputs.pdf, r.outputs.replace,
                        [&](std::FILE* file) { write_pdf(document, file); });
  if (!apart) return;
  const std::string card = render_pdf({words::cut_card_title(r.job()), turn, std::move(cut_card)});
  write_file_atomically(r.outputs.cut_card, card, r.outputs.replace);
}

}  // namespace

Result<ImposeReport> run_impose(const ImposeRequest& r, const Progress& progress) {
  validate(r);
  check_outputs({r.outputs.pdf, r.outputs.cut_card}, r.outputs.replace);
  if (r.outputs.preview) make_folder(*r.outputs.preview);

  const Deck deck = read_deck(r.cards.fronts, r.cards.back, progress);
  const std::vector<std::filesystem::path> art = files_of(deck);
  require_not_an_input(r.outputs.pdf, art);
  require_not_an_input(r.outputs.cut_card, art);
  Result<SheetPlan> plan = plan_sheets(r, deck);
  if (!plan) return plan.refusal();
  ImposeReport report;
  report.plan = std::move(plan).value();
  if (r.backs.fitted_to) {
    Result<FittedSheets> fitted = fitted_sheets(r, report.plan);
    if (!fitted) return fitted.refusal();
    report.plan.fitted = std::move(fitted).value();
  }
  DrawnSheets sheets = draw_sheets(
      r, deck, report.plan,
      {words::slug_words(r.job(), report.plan.turn, r.backs.profile_name, fitted_list(report.plan)),
       words::marks_words()});

  report.warnings = report.plan.warnings;
  report.warnings.insert(report.warnings.end(), sheets.warnings.begin(), sheets.warnings.end());
  if (!r.backs.profile) report.warnings.push_back(findings::no_profile());
  if (sheets.marks) {
    report.run = sheets.run;
    report.look_through = sheets.marks->look_through();
  }
  if (r.cutting.paper_thickness) {
    report.thickness = card_thickness(*r.cutting.paper_thickness, r.cutting.pouch_thickness,
                                      static_cast<int>(deck.cards.size()));
  }
  if (r.outputs.preview) preview(r, deck, sheets, report);
  if (report.plan.fitted) {
    warn_of_sheets_not_fitted(report);
    keep_backs(sheets.pages);
  }
  tell(progress, 0, 1, Term{"writing the PDF"});
  write(r, deck, report, std::move(sheets.pages), sheets.back_places);
  return report;
}

}  // namespace versolay
