#include <fmt/format.h>

#include "app/impose.h"
#include "app/words.h"
#include "cli/command.h"
#include "core/direction_words.h"
#include "core/numbers.h"
#include "core/registration_json.h"
#include "core/translation.h"
#include "layout/card_format.h"
#include "profile/profile_json.h"

namespace versolay::cli {
namespace {

constexpr double kPagePpi = 300.0;

struct ImposeOptions {
  std::string fronts;
  std::string back;
  std::string paper;
  std::string card;
  std::string grid = "auto";
  std::string gutter = "0";
  std::string blocks = "auto";
  std::string margin = "5";
  std::string turn;
  std::string profile;
  std::string oversize;
  std::string coverage = "0.95";
  std::string confidence = "0.90";
  std::string front_bleed = "0";
  std::string back_bleed = "0";
  std::string ticks = "0";
  std::string laminated;
  std::string paper_thickness;
  std::string pouch_thickness;
  bool no_marks = false;
  std::string fit = "fill";
  std::string back_edge = "auto";
  std::string ppi = "300";
  bool head_to_foot = false;
  bool no_rotation = false;
  bool no_scale = false;
  std::string feed;
  std::string stock;
  std::string quality;
  bool no_guides = false;
  std::string preview;
  std::string corner_radius = "0";
  std::string job;
  std::string out;
  std::string cut_card;
};

std::optional<int> option_blocks(const std::string& text) {
  return option_choice<std::optional<int>>("--blocks", text,
                                           {{"auto", std::nullopt}, {"1", 1}, {"2", 2}});
}

ArtFit option_fit(const std::string& text) {
  return option_choice<ArtFit>(
      "--fit", text, {{"fill", ArtFit::fill}, {"fit", ArtFit::fit}, {"crop", ArtFit::crop}});
}

std::optional<EdgeKind> option_back_edge(const std::string& text) {
  return option_choice<std::optional<EdgeKind>>("--back-edge", text,
                                                {{"auto", std::nullopt},
                                                 {"white", EdgeKind::white},
                                                 {"plain", EdgeKind::plain},
                                                 {"pattern", EdgeKind::pattern},
                                                 {"picture", EdgeKind::picture}});
}

double option_ratio(const std::string& text) {
  const std::size_t slash = text.find('/');
  const auto measured = parse_number(text.substr(0, slash));
  const auto printed =
      slash == std::string::npos ? std::nullopt : parse_number(text.substr(slash + 1));
  if (!measured || !printed || !(*measured > 0) || !(*printed > 0)) {
    throw Error("--laminated-mm " + text, tr("must be measured/printed in mm, such as 263.6/264"));
  }
  return *measured / *printed;
}

/// "263.6/264" for both directions, or "188.8/189,263.6/264" across and down.
LaminatedScale option_laminated(const std::string& text) {
  const std::size_t comma = text.find(',');
  const double x = option_ratio(text.substr(0, comma));
  return {x, comma == std::string::npos ? x : option_ratio(text.substr(comma + 1))};
}

constexpr const char* kLastPage = "last-page";

std::filesystem::path beside(const std::filesystem::path& pdf) {
  return pdf.parent_path() / (pdf.stem().string() + "-cutcard.pdf");
}

ImposeRequest impose_request(const ImposeOptions& o, const CommonOptions& common) {
  ImposeRequest r;
  r.fronts = o.fronts;
  r.back = o.back;
  if (!o.paper.empty()) r.paper = parse_paper(o.paper);
  r.card = option_card(o.card);
  r.grid = option_grid(o.grid);
  r.gutter_mm = option_number("--gutter", o.gutter);
  r.blocks = option_blocks(o.blocks);
  r.margins = option_margins(o.margin);
  if (!o.turn.empty()) r.turn = option_turn(o.turn);
  if (!o.profile.empty()) {
    r.profile = read_profile(o.profile);
    r.profile_name = std::filesystem::path(o.profile).filename().string();
    if (!r.profile->printer.empty()) r.profile_name += " (" + r.profile->printer + ")";
  }
  if (!o.oversize.empty()) r.oversize = option_oversize(o.oversize);
  r.coverage = option_number("--coverage", o.coverage);
  r.confidence = option_number("--confidence", o.confidence);
  r.front_art = {option_fit(o.fit), option_number("--front-bleed", o.front_bleed)};
  r.back_art = {option_fit(o.fit), option_number("--back-bleed", o.back_bleed)};
  r.back_edge = option_back_edge(o.back_edge);
  r.wanted_ppi = option_number("--ppi", o.ppi);
  r.head_to_foot = o.head_to_foot;
  r.can_rotate = !o.no_rotation;
  r.can_scale = !o.no_scale;
  r.setup = {o.feed, o.stock, o.quality};
  r.ticks_mm = option_number("--ticks", o.ticks);
  if (!o.laminated.empty()) r.laminated = option_laminated(o.laminated);
  if (!o.paper_thickness.empty()) {
    r.paper_thickness = parse_thickness("--paper-thickness", o.paper_thickness);
  }
  if (!o.pouch_thickness.empty()) {
    r.pouch_thickness = parse_thickness("--pouch-thickness", o.pouch_thickness);
    if (!r.paper_thickness) throw Error("--pouch-thickness", tr("needs --paper-thickness as well"));
  }
  if (!o.preview.empty()) r.preview = o.preview;
  r.corner_radius_mm = option_number("--corner-radius", o.corner_radius);
  r.guides = !o.no_guides;
  r.marks = !o.no_marks;
  r.job = o.job;
  r.pdf = o.out;
  if (o.cut_card != kLastPage) {
    r.cut_card = o.cut_card.empty() ? beside(o.out) : std::filesystem::path(o.cut_card);
  }
  r.replace = common.force;
  return r;
}

/// For saying mm in px: that of the back's image, or the wanted one where the back is a page.
double words_ppi(const ImposeReport& report) {
  return report.back_ppi.lowest > 0 ? report.back_ppi.lowest : kPagePpi;
}

std::string setup_in_words(const PrinterProfile& profile) {
  std::string list;
  for (const auto& [what, value] : {std::pair{tr("feed"), &profile.feed},
                                    {tr("stock"), &profile.stock},
                                    {tr("quality"), &profile.quality}}) {
    if (!value->empty()) list += fmt::format("{}{} \"{}\"", list.empty() ? "" : ", ", what, *value);
  }
  return list.empty() ? "" : tr("\nThe profile holds for {}: print with the same.", list);
}

/// What was done about the cut, in the words of the edge that the backs have.
std::string oversize_in_words(const ImposeReport& report) {
  const Reach& o = report.oversize;
  const EdgeCounts& edges = report.back_edges;
  if (o.x_mm == 0 && o.y_mm == 0) return tr("The backs are printed at their own size.");
  const double ppi = words_ppi(report);
  std::string text =
      o.x_mm == o.y_mm
          ? tr("The backs reach {} beyond the cut on every side", length_words(o.x_mm, ppi))
          : tr("The backs reach {} beyond the cut left and right and {} top and bottom",
               length_words(o.x_mm, ppi), length_words(o.y_mm, ppi));
  const double enlarged = 100 * (report.back_enlargement - 1);
  const int enlargeable = edges.picture + (enlarged > 0 ? edges.pattern : 0);
  if (edges.plain > 0 && edges.picture + edges.pattern == 0) {
    text += tr(": their plain edge goes on, the picture is not enlarged.");
  } else if (edges.pattern > 0 && enlargeable + edges.plain == 0) {
    text += tr(": their pattern goes on, it is not enlarged.");
  } else if (enlarged <= 0) {
    text += tr(": their own bleed reaches that far, nothing is enlarged.");
  } else if (edges.plain == 0 && edges.pattern == 0) {
    text +=
        tr(": they are enlarged alike in width and height, by {} %.", format_number(enlarged, 1));
  } else {
    text +=
        tr(": plain edges and patterns go on, other pictures are enlarged alike in width and "
           "height, by {} % at most.",
           format_number(enlarged, 1));
  }
  return text;
}

std::string text_of(const ImposeRequest& request, const ImposeReport& report) {
  const CardGrid& grid = report.grid;
  std::string text = tr(
      "{} cards of {} x {} mm on {} of {} ({} columns x {} rows{}{}), fronts and backs in {}.",
      report.cards, format_number(request.card.width_mm, 2),
      format_number(request.card.height_mm, 2), trn("{} sheet", "{} sheets", report.sheets),
      report.paper.name, grid.columns, grid.rows, grid.sideways ? tr(", cards on their side") : "",
      grid.blocks.size() == 2 ? tr(", two blocks with a cut in the waste between") : "",
      request.pdf.string());
  if (report.blank_cells > 0) {
    text += trn(" {} place on the last sheet stays empty on both sides.",
                " {} places on the last sheet stay empty on both sides.", report.blank_cells);
  }
  if (request.profile) {
    text += tr("\n\nThe back pages are {}.",
               correction_in_words(registration_from(report.correction.page_from_wanted()),
                                   words_ppi(report)));
    double most = 0.0;
    for (const auto& move : report.cards_moved_mm) most = std::max(most, move.norm());
    if (most > 0) {
      text +=
          tr(" Each back is also moved by itself, by up to {}, because the printer shifts some "
             "places of the page more than others.",
             length_words(most, words_ppi(report)));
    }
    text += setup_in_words(*request.profile);
  }
  text += "\n" + oversize_in_words(report);
  if (!report.preview.empty()) {
    text +=
        tr("\nThe card that is worst off, at life size: {}. Back as drawn, typical, and the worst "
           "of {} % of the cards; the light band is where the cut may fall.",
           report.preview.front().parent_path().string(), format_number(100 * request.coverage, 1));
  }
  text += tr(
      "\n\nPrint at actual size (100 %), borderless and driver duplex off; turn the sheets on the "
      "{} edge. Let the fronts dry before the backs, and both before laminating or cutting.\n"
      "Cutting: {} strokes a sheet, in the order of {}. Mind the blade; the cutter's manual comes "
      "first.",
      report.turn == Turn::long_edge ? tr("long") : tr("short"), report.cuts.strokes,
      request.cut_card.empty() ? tr("its last page, for plain paper") : request.cut_card.string());
  if (report.thickness) text += "\n" + thickness_words(*report.thickness);
  return text;
}

Json json_of(const CutPlan& plan) {
  Json cuts = Json::array();
  for (const Cut& cut : plan.cuts) {
    Json entry = {{"number", cut.number}, {"what", cut.what}};
    entry["by"] = cut.by == CutBy::fence ? "fence" : "marks";
    if (cut.by == CutBy::fence) {
      entry["fence_mm"] = rounded(cut.fence_mm, 3);
      entry["against"] = cut.against;
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

Json json_of(const ImposeRequest& request, const ImposeReport& report) {
  Json cells = Json::array();
  for (std::size_t i = 0; i < report.grid.cells.size(); ++i) {
    const Cell& cell = report.grid.cells[i];
    cells.push_back({{"row", cell.row},
                     {"column", cell.column},
                     {"block", cell.block},
                     {"x_mm", rounded(cell.centre.x, 4)},
                     {"y_mm", rounded(cell.centre.y, 4)}});
    if (!report.cards_moved_mm.empty()) {
      cells.back()["back_moved_by_itself_mm"] = {rounded(report.cards_moved_mm[i].x(), 4),
                                                 rounded(report.cards_moved_mm[i].y(), 4)};
    }
  }
  Json preview = Json::array();
  for (const auto& file : report.preview) preview.push_back(file.string());
  Json cards = Json::array();
  for (const PlacedCard& card : report.placed) {
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
  return {{"pdf", request.pdf.string()},
          {"cut_card", request.cut_card.empty() ? kLastPage : request.cut_card.string()},
          {"paper", report.paper.name},
          {"paper_mm", {rounded(report.paper.width_mm, 4), rounded(report.paper.height_mm, 4)}},
          {"turn", to_string(report.turn)},
          {"profile", request.profile ? Json(request.profile_name) : Json()},
          {"cards", report.cards},
          {"sheets", report.sheets},
          {"blank_cells", report.blank_cells},
          {"grid",
           {{"columns", report.grid.columns},
            {"rows", report.grid.rows},
            {"blocks", report.grid.blocks.size()},
            {"gutter_mm", request.gutter_mm},
            {"sideways", report.grid.sideways},
            {"card_mm", {report.grid.card.width_mm, report.grid.card.height_mm}},
            {"cells_recto", std::move(cells)}}},
          {"back_moved", json_of(report.correction)},
          {"oversize", reach(report.oversize)},
          {"oversize_wanted", reach(report.oversize_wanted)},
          {"oversize_between_cards_mm", rounded(report.inner_oversize_mm, 4)},
          {"back_enlargement", rounded(report.back_enlargement, 5)},
          {"back_edges",
           {{"white", report.back_edges.white},
            {"plain", report.back_edges.plain},
            {"pattern", report.back_edges.pattern},
            {"picture", report.back_edges.picture}}},
          {"placed", std::move(cards)},
          {"block_moved_mm", {rounded(report.moved_mm.x(), 4), rounded(report.moved_mm.y(), 4)}},
          {"ppi", {{"fronts", ppi(report.front_ppi)}, {"backs", ppi(report.back_ppi)}}},
          {"preview", std::move(preview)},
          {"marks_run", report.run.empty() ? Json() : Json(report.run)},
          {"fence_scale", {rounded(report.cuts.stretch_x, 6), rounded(report.cuts.stretch_y, 6)}},
          {"thickness", thickness_json(report)},
          {"strokes_per_sheet", report.cuts.strokes},
          {"cuts", json_of(report.cuts)}};
}

}  // namespace

Command add_impose(CLI::App& root) {
  auto o = make_options<ImposeOptions>();
  CLI::App* parser = root.add_subcommand(
      "impose", tr("Lay out cards on sheets, backs corrected and enlarged, ready to print"));
  parser
      ->add_option(
          "--fronts", o->fronts,
          tr("folder of pictures (JPEG, PNG, TIFF) or PDFs, one PDF or TIFF, or a CSV list "
             "whose first line names its columns: card,quantity,front,back,note"))
      ->required();
  parser->add_option("--back", o->back,
                     tr("one back for all cards, or a folder, PDF or TIFF with one for each; "
                        "backs.pdf#2 is page 2"));
  parser->add_option("--paper", o->paper,
                     tr("a4, a3, letter, tabloid, or WxHmm (default: the profile's, else a4)"));
  parser
      ->add_option("--card", o->card,
                   tr("finished size in mm, such as 63x88, or a name: {}", card_format_list()))
      ->required();
  parser->add_option("--grid", o->grid, tr("columns x rows on the page, or auto: as many as fit"))
      ->capture_default_str();
  parser->add_option("--gutter", o->gutter, tr("mm between cards"))->capture_default_str();
  parser
      ->add_option("--blocks", o->blocks,
                   tr("1, or 2 with a cut in the waste between; auto: 2 on A3 and Tabloid"))
      ->capture_default_str();
  parser
      ->add_option("--margin", o->margin,
                   tr("mm that the printer leaves white: at every edge, or left,top,right,bottom"))
      ->capture_default_str();
  parser->add_option("--turn", o->turn,
                     tr("long-edge or short-edge (default: the profile's, else long-edge)"));
  parser->add_option("--profile", o->profile,
                     tr("printer profile: corrects and enlarges the backs"));
  parser->add_option("--oversize", o->oversize,
                     tr("mm per side by which the backs overlap the cut, 0.7 or 0.7x0.5 (default: "
                        "from the profile)"));
  parser
      ->add_option("--coverage", o->coverage,
                   tr("share of cards without a sliver, for the oversize"))
      ->capture_default_str();
  parser->add_option("--confidence", o->confidence, tr("how sure that promise has to be"))
      ->capture_default_str();
  parser->add_option("--front-bleed", o->front_bleed, tr("mm of bleed that the front images have"))
      ->capture_default_str();
  parser->add_option("--back-bleed", o->back_bleed, tr("mm of bleed that the back images have"))
      ->capture_default_str();
  parser
      ->add_option("--fit", o->fit,
                   tr("fill: cover the card, cut off the excess; fit: show all; crop: at the size "
                      "that the file states"))
      ->capture_default_str();
  parser
      ->add_option("--back-edge", o->back_edge,
                   tr("what the rim of the backs is: white, plain, pattern, picture; auto: look"))
      ->capture_default_str();
  parser->add_flag("--head-to-foot", o->head_to_foot, tr("backs stand on their head"));
  parser->add_option("--ppi", o->ppi, tr("pixels per inch that the pictures should have"))
      ->capture_default_str();
  parser->add_flag("--no-rotation", o->no_rotation, tr("move the back page, do not turn it"));
  parser->add_flag("--no-scale", o->no_scale, tr("move and turn the back page, do not scale it"));
  parser->add_option("--feed", o->feed, tr("of this job, to be held against the profile"));
  parser->add_option("--stock", o->stock, tr("of this job, to be held against the profile"));
  parser->add_option("--quality", o->quality, tr("of this job, to be held against the profile"));
  parser->add_option("--laminated-mm", o->laminated,
                     tr("measured/printed length of a finished sheet, such as 263.6/264, or two of "
                        "them, across,down: scales the cut card"));
  parser->add_option("--paper-thickness", o->paper_thickness,
                     tr("220um, 0.22mm, 9mil or 200gsm: tells how thick cards and deck will be"));
  parser->add_option("--pouch-thickness", o->pouch_thickness,
                     tr("of one film of the pouch: 80um, 3mil"));
  parser
      ->add_option("--ticks", o->ticks,
                   tr("ticks of 0.1 or 0.25 mm beside the guides of edges 1 and 2, to cut a sheet "
                      "whose back is off half way; 0: none"))
      ->capture_default_str();
  parser->add_flag("--no-guides", o->no_guides, tr("no cut guides on the fronts"));
  parser->add_option(
      "--preview", o->preview,
      tr("folder for pictures of the finished cards: best, typical, worst, border band"));
  parser->add_option("--corner-radius", o->corner_radius, tr("mm, of the cards in the preview"))
      ->capture_default_str();
  parser->add_flag("--no-marks", o->no_marks, tr("no registration marks in the waste"));
  parser->add_option("--job", o->job, tr("name printed in the waste (default: that of the PDF)"));
  parser->add_option("--out", o->out, tr("PDF to write"))->required();
  parser->add_option("--cut-card", o->cut_card,
                     tr("PDF of the cut card, for plain paper (default: OUT-cutcard.pdf), or "
                        "last-page: in the PDF of the job"));
  parser->footer(
      tr("Example: versolay impose --fronts fronts --back back.png --card 63x88 --paper a4 \\\n"
         "           --profile printer.json --out deck.pdf"));
  return {parser, [o](const CommonOptions& common) -> Result<Outcome> {
            const ImposeRequest request = impose_request(*o, common);
            const Result<ImposeReport> report = impose(request, common.progress);
            if (!report) return report.refusal();
            Outcome outcome;
            outcome.text = text_of(request, report.value());
            outcome.document = json_of(request, report.value());
            outcome.warnings = report.value().warnings;
            if (!request.profile) {
              outcome.next =
                  "versolay target --paper " + report.value().paper.name + " --out target.pdf";
            }
            return outcome;
          }};
}

}  // namespace versolay::cli
