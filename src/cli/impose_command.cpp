#include <fmt/format.h>

#include "app/advise.h"
#include "app/impose.h"
#include "cli/bad_option.h"
#include "cli/command.h"
#include "cli/option_values.h"
#include "cli/shared_options.h"
#include "core/finding_json.h"
#include "core/numbers.h"
#include "core/registration_json.h"
#include "imposition/fitted_sheets.h"
#include "layout/card_format.h"
#include "profile/advice_tables.h"
#include "profile/profile_json.h"
#include "registration/fronts_json.h"
#include "words/advice_words.h"
#include "words/direction_words.h"
#include "words/findings.h"
#include "words/job_words.h"
#include "words/say.h"
#include "words/translation.h"

namespace versolay::cli {
namespace {

constexpr double kPagePpi = 300.0;

struct ImposeOptions {
  ImposeRequest request;
  std::filesystem::path profile;
  std::optional<std::filesystem::path> recentre;
  std::optional<std::filesystem::path> fitted_to;
  std::filesystem::path cut_card;
};

constexpr const char* kLastPage = "last-page";

std::filesystem::path beside(const std::filesystem::path& pdf) {
  return pdf.parent_path() / (pdf.stem().string() + "-cutcard.pdf");
}

Result<ImposeRequest> impose_request(const ImposeOptions& options, const CommonOptions& common) {
  ImposeRequest request = options.request;
  if (!options.profile.empty()) {
    const auto profile = profile_for_job(options.profile, options.recentre);
    if (!profile) return profile.refusal();
    request.backs.profile = profile.value();
    request.backs.profile_name = options.profile.filename().string();
    const std::string& printer = request.backs.profile->printer;
    if (!printer.empty()) request.backs.profile_name += " (" + printer + ")";
  }
  if (options.recentre && options.profile.empty()) {
    throw BadOption("--recentre", findings::needs_option("--profile"));
  }
  if (options.fitted_to) request.backs.fitted_to = read_fronts(*options.fitted_to);
  request.backs.art.fit = request.cards.front_art.fit;
  if (request.cutting.pouch_thickness && !request.cutting.paper_thickness) {
    throw BadOption("--pouch-thickness", findings::needs_option("--paper-thickness"));
  }
  if (options.cut_card != kLastPage) {
    request.outputs.cut_card =
        options.cut_card.empty() ? beside(request.outputs.pdf) : options.cut_card;
  }
  request.outputs.replace = common.force;
  return request;
}

/// For saying mm in px: that of the back's image, or the wanted one where the back is a page.
double words_ppi(const ImposeReport& report) {
  return report.plan.artwork.back_ppi.lowest > 0 ? report.plan.artwork.back_ppi.lowest : kPagePpi;
}

std::string setup_in_words(const PrinterProfile& profile) {
  std::string list;
  for (const auto& [what, value] : {std::pair{tr("feed"), &profile.feed},
                                    {tr("stock"), &profile.stock},
                                    {tr("quality"), &profile.quality}}) {
    if (!value->empty()) list += fmt::format("{}{} \"{}\"", list.empty() ? "" : ", ", what, *value);
  }
  return list.empty() ? "" : tr("\nThe profile is valid for {}: print with the same.", list);
}

/// What was done about the cut, in the words of the edge that the backs have.
std::string oversize_in_words(const ImposeReport& report, const DisplayUnit& unit) {
  const Reach& o = report.plan.back_reach.granted;
  const EdgeCounts& edges = report.plan.back_reach.counts;
  if (o.x_mm == 0 && o.y_mm == 0) return tr("The backs are printed at their original size.");
  const double ppi = words_ppi(report);
  const Oversize up = oversize_of({o.x_mm, o.y_mm}, ppi);  // as advise says it
  std::string text =
      o.x_mm == o.y_mm
          ? tr("The backs reach {} beyond the cut on every side",
               oversize_length_words(up.x_mm, up.x_px, ppi, unit))
          : tr("The backs reach {} beyond the cut left and right and {} top and bottom",
               oversize_length_words(up.x_mm, up.x_px, ppi, unit),
               oversize_length_words(up.y_mm, up.y_px, unit));
  const double enlarged = 100 * (report.plan.back_reach.enlargement - 1);
  const int enlargeable = edges.picture + (enlarged > 0 ? edges.pattern : 0);
  if (edges.plain > 0 && edges.picture + edges.pattern == 0) {
    text += tr(": their plain edge is extended, the picture is not enlarged.");
  } else if (edges.pattern > 0 && enlargeable + edges.plain == 0) {
    text += tr(": their pattern is continued, not enlarged.");
  } else if (enlarged <= 0) {
    text += tr(": their own bleed reaches that far, nothing is enlarged.");
  } else if (edges.plain == 0 && edges.pattern == 0) {
    text +=
        tr(": they are enlarged equally in width and height, by {} %.", format_number(enlarged, 1));
  } else {
    text +=
        tr(": plain edges and patterns are continued, other pictures are enlarged equally in width "
           "and height, by at most {} %.",
           format_number(enlarged, 1));
  }
  return text;
}

/// The order of the stack is all that ties a back to its sheet.
std::string fitted_in_words(const ImposeReport& report, const DisplayUnit& unit) {
  const FittedSheets& fitted = *report.plan.fitted;
  return tr(
      "\n\nThese pages are backs only, in the order of the sheets; the fronts are already printed. "
      "Load the stack so that sheet 1 is fed first, and check the number in the waste of both "
      "sides: {} fit one sheet only, and reach {} beyond the cut.",
      trn("{} back", "{} backs", fitted.page_from_wanted.size()),
      length_words(std::max(fitted.reach.x_mm, fitted.reach.y_mm), words_ppi(report), unit));
}

std::string preview_in_words(const ImposeRequest& request, const ImposeReport& report) {
  if (report.preview.empty()) return "";
  return tr(
      "The worst card, life-size: {}. Back as drawn, typical, and the worst of {} % of the cards; "
      "the striped band is where the cut may fall.",
      report.preview.front().parent_path().string(),
      format_number(100 * request.backs.coverage, 1));
}

std::string text_of(const ImposeRequest& request, const ImposeReport& report,
                    const DisplayUnit& unit) {
  const CardGrid& grid = report.plan.grid;
  std::string text =
      tr("{} cards of {} x {} mm on {} of {} ({} columns x {} rows{}{}), fronts and backs in {}.",
         report.plan.placed.size(), format_number(request.cards.size.width_mm, 2),
         format_number(request.cards.size.height_mm, 2),
         trn("{} sheet", "{} sheets", report.plan.sheets), report.plan.paper.name, grid.columns,
         grid.rows, grid.sideways ? tr(", cards on their side") : "",
         grid.blocks.size() == 2 ? tr(", two blocks with a cut in the waste between") : "",
         request.outputs.pdf.string());
  if (report.plan.blank_cells > 0) {
    text += trn(" {} place on the last sheet stays empty on both sides.",
                " {} places on the last sheet stay empty on both sides.", report.plan.blank_cells);
  }
  if (request.backs.profile) {
    text += tr("\n\nThe back pages are {}.",
               correction_in_words(registration_from(report.correction().page_from_wanted()),
                                   words_ppi(report), unit));
    double most = 0.0;
    for (const auto& move : report.plan.correction.cards_moved_mm)
      most = std::max(most, move.norm());
    if (most > 0) {
      text +=
          tr(" Each back is also moved separately, by up to {}, because the printer shifts some "
             "places of the page more than others.",
             length_words(most, words_ppi(report), unit));
    }
    text += setup_in_words(*request.backs.profile);
  }
  text += "\n" + oversize_in_words(report, unit);
  if (report.plan.fitted) text += fitted_in_words(report, unit);
  const std::string preview = preview_in_words(request, report);
  if (!preview.empty()) text += "\n" + preview;
  text += tr(
      "\n\nPrint at actual size (100 %), borderless and driver duplex off; turn the sheets on the "
      "{} edge. Let the fronts dry before the backs, and both before laminating or cutting.\n"
      "Cutting: {} strokes a sheet, in the order of {}. Mind the blade; the cutter's manual comes "
      "first.",
      report.plan.turn == Turn::long_edge ? tr("long") : tr("short"), report.plan.cuts.strokes,
      request.outputs.cut_card.empty() ? tr("its last page, for plain paper")
                                       : request.outputs.cut_card.string());
  if (report.thickness) text += "\n" + words::thickness_words(*report.thickness);
  return text;
}

Json json_of(const CutPlan& plan) {
  Json cuts = Json::array();
  for (const Cut& cut : plan.cuts) {
    Json entry = versolay::json_of(cut.what);
    entry.update({{"number", cut.number}, {"what", words::say(cut.what)}});
    entry["by"] = cut.by == CutBy::fence ? "fence" : "marks";
    if (cut.by == CutBy::fence) {
      entry["fence_mm"] = rounded(cut.fence_mm, 3);
      entry["against"] = tr("the edge of cut {}", *cut.against_cut);
      entry["against_cut"] = *cut.against_cut;
    }
    entry["strokes"] = cut.strokes;
    cuts.push_back(std::move(entry));
  }
  return cuts;
}

Json thickness_json(const ImposeReport& report) {
  if (!report.thickness) return Json();
  const auto range = [](const Thickness& t) -> Json {
    return {rounded(t.low_mm, 4), rounded(t.high_mm, 4)};
  };
  return {{"card_mm", range(report.thickness->card)}, {"deck_mm", range(report.thickness->deck)}};
}

/// By sheet; null: both sides are printed, all backs in the same place.
Json fitted_json(const ImposeReport& report) {
  if (!report.plan.fitted) return Json();
  const FittedSheets& fitted = *report.plan.fitted;
  Json sheets = Json::array();
  for (const auto& [sheet, page_from_wanted] : fitted.page_from_wanted) {
    sheets.push_back(
        {{"sheet", sheet}, {"back_moved", json_of(registration_from(page_from_wanted))}});
  }
  return {{"run", fitted.run},
          {"sheets", std::move(sheets)},
          {"not_fitted", sheets_not_fitted(report.plan)},
          {"oversize",
           {{"x_mm", rounded(fitted.reach.x_mm, 4)}, {"y_mm", rounded(fitted.reach.y_mm, 4)}}}};
}

Json json_of(const ImposeRequest& request, const ImposeReport& report) {
  Json cells = Json::array();
  for (std::size_t i = 0; i < report.plan.grid.cells.size(); ++i) {
    const Cell& cell = report.plan.grid.cells[i];
    cells.push_back({{"row", cell.row},
                     {"column", cell.column},
                     {"block", cell.block},
                     {"x_mm", rounded(cell.centre.x, 4)},
                     {"y_mm", rounded(cell.centre.y, 4)}});
    if (!report.plan.correction.cards_moved_mm.empty()) {
      cells.back()["back_moved_by_itself_mm"] = {
          rounded(report.plan.correction.cards_moved_mm[i].x(), 4),
          rounded(report.plan.correction.cards_moved_mm[i].y(), 4)};
    }
  }
  Json preview = Json::array();
  for (const auto& file : report.preview) preview.push_back(file.string());
  Json cards = Json::array();
  for (const PlacedCard& card : report.plan.placed) {
    cards.push_back({{"card", card.name},
                     {"sheet", card.sheet},
                     {"row", card.row},
                     {"column", card.column},
                     {"front", card.front},
                     {"back", card.back}});
    if (!card.note.empty()) cards.back()["note"] = card.note;
  }
  const auto ppi = [](const EffectivePpi& p) -> Json {
    return {{"lowest", rounded(p.lowest, 1)}, {"highest", rounded(p.highest, 1)}};
  };
  const auto reach = [](const Reach& r) -> Json {
    return {{"x_mm", rounded(r.x_mm, 4)}, {"y_mm", rounded(r.y_mm, 4)}};
  };
  return {{"pdf", request.outputs.pdf.string()},
          {"cut_card",
           request.outputs.cut_card.empty() ? kLastPage : request.outputs.cut_card.string()},
          {"paper", report.plan.paper.name},
          {"paper_mm",
           {rounded(report.plan.paper.width_mm, 4), rounded(report.plan.paper.height_mm, 4)}},
          {"turn", to_string(report.plan.turn)},
          {"profile", request.backs.profile ? Json(request.backs.profile_name) : Json()},
          {"cards", report.plan.placed.size()},
          {"sheets", report.plan.sheets},
          {"blank_cells", report.plan.blank_cells},
          {"grid",
           {{"columns", report.plan.grid.columns},
            {"rows", report.plan.grid.rows},
            {"blocks", report.plan.grid.blocks.size()},
            {"gutter_mm", request.sheet.gutter_mm},
            {"sideways", report.plan.grid.sideways},
            {"card_mm", {report.plan.grid.card.width_mm, report.plan.grid.card.height_mm}},
            {"cells_recto", std::move(cells)}}},
          {"back_moved", json_of(report.correction())},
          {"oversize", reach(report.plan.back_reach.granted)},
          {"oversize_wanted", reach(report.plan.back_reach.wanted)},
          {"oversize_between_cards_mm", rounded(report.plan.back_reach.inner_mm, 4)},
          {"back_enlargement", rounded(report.plan.back_reach.enlargement, 5)},
          {"back_edges",
           {{"white", report.plan.back_reach.counts.white},
            {"plain", report.plan.back_reach.counts.plain},
            {"pattern", report.plan.back_reach.counts.pattern},
            {"picture", report.plan.back_reach.counts.picture}}},
          {"placed", std::move(cards)},
          {"block_moved_mm",
           {rounded(report.plan.moved_mm.x(), 4), rounded(report.plan.moved_mm.y(), 4)}},
          {"ppi",
           {{"fronts", ppi(report.plan.artwork.front_ppi)},
            {"backs", ppi(report.plan.artwork.back_ppi)}}},
          {"preview", std::move(preview)},
          {"fitted_to", fitted_json(report)},
          {"marks_run", report.run.empty() ? Json() : Json(report.run)},
          {"fence_scale",
           {rounded(report.plan.cuts.stretch_x, 6), rounded(report.plan.cuts.stretch_y, 6)}},
          {"thickness", thickness_json(report)},
          {"strokes_per_sheet", report.plan.cuts.strokes},
          {"cuts", json_of(report.plan.cuts)}};
}

void add_options(CLI::App& parser, ImposeOptions& options) {
  auto& [cards, sheet, backs, marks, cutting, outputs] = options.request;
  add_typed(parser, "--fronts", cards.fronts, file("PICTURES"),
            tr("folder of pictures (JPEG, PNG, TIFF) or PDFs, one PDF or TIFF, or a CSV list whose "
               "first line names its columns: card,quantity,front,back,note"))
      ->required();
  add_typed(parser, "--back", cards.back, file("PICTURE"),
            tr("one back for all cards, or a folder, PDF or TIFF with one for each; backs.pdf#2 is "
               "page 2"));
  add_card(parser, cards.size)->required();

  add_paper(parser, sheet.paper, tr("the profile's, else a4"));
  add_turn(parser, sheet.turn, tr("the profile's, else long-edge"));
  add_grid(parser, sheet.grid);
  add_gutter(parser, sheet.gutter_mm);
  add_typed(parser, "--blocks", sheet.blocks,
            choice<std::optional<int>>({{"auto", std::nullopt}, {"1", 1}, {"2", 2}}),
            tr("1, or 2 with a cut in the waste between; auto: 2 on A3 and Tabloid"));
  add_margin(parser, sheet.margins);

  add_typed(parser, "--profile", options.profile, file(),
            tr("printer profile: corrects and enlarges the backs"));
  add_recentre(parser, options.recentre);
  add_typed(parser, "--fitted-to", options.fitted_to, optional(file()),
            tr("fronts of this job as measure --fronts read them: writes backs only, each moved to "
               "fit the front of its sheet"));
  add_oversize(parser, backs.oversize);
  add_coverage(parser, backs.coverage);
  add_confidence(parser, backs.confidence);
  add_no_rotation(parser, backs.can_rotate);
  add_no_scale(parser, backs.can_scale);
  add_set_up(parser, backs.setup.feed, backs.setup.stock, backs.setup.quality);

  add_typed(parser, "--front-bleed", cards.front_art.bleed_mm, length(20),
            tr("bleed that the front images have"));
  add_typed(parser, "--back-bleed", backs.art.bleed_mm, length(20),
            tr("bleed that the back images have"));
  add_typed(
      parser, "--fit", cards.front_art.fit,
      choice<ArtFit>({{"fill", ArtFit::fill}, {"fit", ArtFit::fit}, {"crop", ArtFit::crop}}),
      tr("fill: cover the card, cut off the excess; fit: show all; crop: at the size that the "
         "file states"));
  add_back_edge(parser, backs.edge)
      ->description(tr("what the edge of the backs is like; auto: detect it"));
  parser.add_flag("--head-to-foot", backs.head_to_foot,
                  tr("backs are upside down relative to the fronts"));
  add_ppi(parser, cards.wanted_ppi)
      ->description(tr("pixels per inch that the pictures should have"));

  add_typed(parser, "--laminated-mm", cutting.laminated, optional(laminated_scale()),
            tr("measured/printed length of a finished sheet, such as 263.6/264, or two of them, "
               "across,down: scales the cut card"));
  add_typed(parser, "--paper-thickness", cutting.paper_thickness, optional(thickness()),
            tr("220um, 0.22mm, 9mil or 200gsm: reports how thick cards and deck will be"));
  add_typed(parser, "--pouch-thickness", cutting.pouch_thickness, optional(thickness()),
            tr("of one film of the pouch: 80um, 3mil"));

  add_typed(parser, "--ticks", marks.ticks_mm, length(2),
            tr("ticks every 0.1 or 0.25 mm beside the guides of edges 1 and 2, to split the error "
               "of a sheet whose back is off; 0: none"));
  add_off_switch(parser, "--no-guides", marks.guides, tr("no cut guides on the fronts"));
  add_off_switch(parser, "--no-marks", marks.registration,
                 tr("no registration marks in the waste"));

  add_typed(parser, "--preview", outputs.preview, optional(file("FOLDER")),
            tr("folder for pictures of the finished cards: best, typical, worst, border band"));
  add_typed(parser, "--corner-radius", outputs.corner_radius_mm, length(20),
            tr("of the cards in the preview"));
  add_typed(parser, "--job", outputs.job, words("NAME"),
            tr("name printed in the waste (default: that of the PDF)"));
  add_out(parser, outputs.pdf, tr("PDF to write"))->required();
  add_typed(
      parser, "--cut-card", options.cut_card, output_file(),
      tr("PDF of the cut card, for plain paper (default: OUT-cutcard.pdf), or last-page: in the "
         "PDF of the job"));
}

}  // namespace

Command add_impose(CLI::App& root) {
  auto options = make_options<ImposeOptions>();
  CLI::App* parser = root.add_subcommand(
      "impose", tr("Lay out cards on sheets, backs corrected and enlarged, ready to print"));
  add_options(*parser, *options);
  parser->footer(
      tr("Example: versolay impose --fronts fronts --back back.png --card 63x88 --paper a4 \\\n"
         "           --profile printer.json --out deck.pdf"));
  return {parser, [options](const CommonOptions& common) -> Result<Outcome> {
            const Result<ImposeRequest> asked = impose_request(*options, common);
            if (!asked) return asked.refusal();
            const ImposeRequest& request = asked.value();
            const Result<ImposeReport> report = run_impose(request, common.progress);
            if (!report) return report.refusal();
            Outcome outcome;
            outcome.text = text_of(request, report.value(), common.unit);
            const std::string preview = preview_in_words(request, report.value());
            if (!preview.empty()) outcome.parts = {{"preview", preview}};
            outcome.document = json_of(request, report.value());
            outcome.warnings = report.value().warnings;
            if (!request.backs.profile) {
              outcome.next =
                  "versolay target --paper " + report.value().plan.paper.name + " --out target.pdf";
            }
            return outcome;
          }};
}

}  // namespace versolay::cli
