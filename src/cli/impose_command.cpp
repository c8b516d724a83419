#include <fmt/format.h>

#include "app/impose.h"
#include "app/words.h"
#include "cli/command.h"
#include "core/direction_words.h"
#include "core/numbers.h"
#include "core/registration_json.h"
#include "profile/profile_json.h"

namespace versolay::cli {
namespace {

struct Options {
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
  std::string after_laminating;
  bool no_guides = false;
  std::string job;
  std::string out;
  std::string cut_card;
};

std::optional<GridShape> option_grid(const std::string& text) {
  if (text == "auto") return std::nullopt;
  const auto [columns, rows] = option_pair("--grid", text);
  const GridShape shape{static_cast<int>(columns), static_cast<int>(rows)};
  if (shape.columns != columns || shape.rows != rows) {
    throw Error("--grid " + text, "must be auto, or columns x rows such as 3x3");
  }
  return shape;
}

std::optional<int> option_blocks(const std::string& text) {
  if (text == "auto") return std::nullopt;
  if (text == "1") return 1;
  if (text == "2") return 2;
  throw Error("--blocks " + text, "must be auto, 1 or 2");
}

/// "0.7", or "0.7x0.5" for left and right x top and bottom.
Reach option_oversize(const std::string& text) {
  if (text.find_first_of("xX") == std::string::npos) {
    const double mm = option_number("--oversize", text);
    return {mm, mm};
  }
  const auto [x, y] = option_pair("--oversize", text);
  return {x, y};
}

CardSize option_size(const std::string& option, const std::string& text) {
  const auto [width, height] = option_pair(option, text);
  return {width, height};
}

std::filesystem::path beside(const std::filesystem::path& pdf) {
  return pdf.parent_path() / (pdf.stem().string() + "-cutcard.pdf");
}

ImposeRequest request_from(const Options& o, const CommonOptions& common) {
  ImposeRequest r;
  r.fronts = o.fronts;
  r.back = o.back;
  if (!o.paper.empty()) r.paper = parse_paper(o.paper);
  r.card = option_size("--card", o.card);
  r.grid = option_grid(o.grid);
  r.gutter_mm = option_number("--gutter", o.gutter);
  r.blocks = option_blocks(o.blocks);
  r.margin_mm = option_number("--margin", o.margin);
  if (!o.turn.empty()) r.turn = option_turn(o.turn);
  if (!o.profile.empty()) {
    r.profile = read_profile(o.profile);
    r.profile_name = std::filesystem::path(o.profile).filename().string();
    if (!r.profile->printer.empty()) r.profile_name += " (" + r.profile->printer + ")";
  }
  if (!o.oversize.empty()) r.oversize = option_oversize(o.oversize);
  r.coverage = option_number("--coverage", o.coverage);
  r.confidence = option_number("--confidence", o.confidence);
  r.front_bleed_mm = option_number("--front-bleed", o.front_bleed);
  r.back_bleed_mm = option_number("--back-bleed", o.back_bleed);
  if (!o.after_laminating.empty()) {
    r.block_after_laminating = option_size("--after-laminating", o.after_laminating);
  }
  r.guides = !o.no_guides;
  r.job = o.job;
  r.pdf = o.out;
  r.cut_card = o.cut_card.empty() ? beside(o.out) : std::filesystem::path(o.cut_card);
  r.replace = common.force;
  return r;
}

std::string oversize_in_words(const ImposeRequest& request, const ImposeReport& report) {
  const Reach& o = report.oversize;
  if (o.x_mm == 0 && o.y_mm == 0) return "The backs are not enlarged.";
  const double ppi = report.back_ppi.lowest;
  std::string text =
      o.x_mm == o.y_mm
          ? fmt::format("The backs reach {} beyond the cut on every side.",
                        length_words(o.x_mm, ppi))
          : fmt::format("The backs reach {} beyond the cut left and right and {} top and bottom.",
                        length_words(o.x_mm, ppi), length_words(o.y_mm, ppi));
  if (request.gutter_mm < 2 * std::max(o.x_mm, o.y_mm) && report.grid.cells.size() > 1) {
    text += fmt::format(
        " Between cards they end {}: there the neighbour's back shows when a sheet is off, which "
        "only a plain edge colour or a gutter of {} mm hides.",
        request.gutter_mm > 0 ? "in the middle of the gutter" : "at the common cut",
        format_number(2 * std::max(o.x_mm, o.y_mm), 2));
  }
  return text;
}

std::string text_of(const ImposeRequest& request, const ImposeReport& report) {
  const CardGrid& grid = report.grid;
  std::string text = fmt::format(
      "{} cards of {} x {} mm on {} sheet{} of {} ({} columns x {} rows{}{}), fronts and backs in "
      "{}.",
      report.cards, format_number(request.card.width_mm, 2),
      format_number(request.card.height_mm, 2), report.sheets, report.sheets == 1 ? "" : "s",
      report.paper.name, grid.columns, grid.rows, grid.sideways ? ", cards on their side" : "",
      grid.blocks.size() == 2 ? ", two blocks with a cut in the waste between" : "",
      request.pdf.string());
  if (report.blank_cells > 0) {
    text +=
        fmt::format(" {} place{} on the last sheet stay{} empty on both sides.", report.blank_cells,
                    report.blank_cells == 1 ? "" : "s", report.blank_cells == 1 ? "s" : "");
  }
  if (request.profile) {
    text += fmt::format("\n\nThe back pages are {}.",
                        correction_in_words(request.profile->mean, report.back_ppi.lowest));
  }
  text += "\n" + oversize_in_words(request, report);
  text += fmt::format(
      "\n\nPrint at actual size (100 %), borderless and driver duplex off; turn the sheets on the "
      "{} "
      "edge. Let the fronts dry before the backs, and both before laminating or cutting.\n"
      "Cutting: {} strokes a sheet, in the order of {}. Mind the blade; the cutter's manual comes "
      "first.",
      report.turn == Turn::long_edge ? "long" : "short", report.cuts.strokes,
      request.cut_card.string());
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

Json json_of(const ImposeRequest& request, const ImposeReport& report) {
  Json cells = Json::array();
  for (const Cell& cell : report.grid.cells) {
    cells.push_back({{"row", cell.row},
                     {"column", cell.column},
                     {"block", cell.block},
                     {"x_mm", rounded(cell.centre.x, 4)},
                     {"y_mm", rounded(cell.centre.y, 4)}});
  }
  const auto ppi = [](const EffectivePpi& p) -> Json {
    return {{"lowest", rounded(p.lowest, 1)}, {"highest", rounded(p.highest, 1)}};
  };
  const auto reach = [](const Reach& r) -> Json {
    return {{"x_mm", rounded(r.x_mm, 4)}, {"y_mm", rounded(r.y_mm, 4)}};
  };
  return {{"pdf", request.pdf.string()},
          {"cut_card", request.cut_card.string()},
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
          {"block_moved_mm", {rounded(report.moved_mm.x(), 4), rounded(report.moved_mm.y(), 4)}},
          {"ppi", {{"fronts", ppi(report.front_ppi)}, {"backs", ppi(report.back_ppi)}}},
          {"strokes_per_sheet", report.cuts.strokes},
          {"cuts", json_of(report.cuts)}};
}

}  // namespace

Command add_impose(CLI::App& root) {
  auto o = make_options<Options>();
  CLI::App* parser = root.add_subcommand(
      "impose", "Lay out cards on sheets, backs corrected and enlarged, ready to print");
  parser
      ->add_option("--fronts", o->fronts,
                   "folder of JPEG or PNG fronts, or a list (first line: front,back,copies)")
      ->required();
  parser->add_option("--back", o->back, "one back for all cards, or a folder with one for each");
  parser->add_option("--paper", o->paper,
                     "a4, a3, letter, tabloid, or WxHmm (default: the profile's, else a4)");
  parser->add_option("--card", o->card, "finished size of a card in mm, such as 63x88")->required();
  parser->add_option("--grid", o->grid, "columns x rows on the page, or auto: as many as fit")
      ->capture_default_str();
  parser->add_option("--gutter", o->gutter, "mm between cards")->capture_default_str();
  parser
      ->add_option("--blocks", o->blocks,
                   "1, or 2 with a cut in the waste between; auto: 2 on A3 and Tabloid")
      ->capture_default_str();
  parser->add_option("--margin", o->margin, "mm at every edge that the printer leaves white")
      ->capture_default_str();
  parser->add_option("--turn", o->turn,
                     "long-edge or short-edge (default: the profile's, else long-edge)");
  parser->add_option("--profile", o->profile, "printer profile: corrects and enlarges the backs");
  parser->add_option("--oversize", o->oversize,
                     "mm per side by which the backs overlap the cut, 0.7 or 0.7x0.5 "
                     "(default: from the profile)");
  parser->add_option("--coverage", o->coverage, "share of cards without a sliver, for the oversize")
      ->capture_default_str();
  parser->add_option("--confidence", o->confidence, "of that promise")->capture_default_str();
  parser->add_option("--front-bleed", o->front_bleed, "mm of bleed that the front images have")
      ->capture_default_str();
  parser->add_option("--back-bleed", o->back_bleed, "mm of bleed that the back images have")
      ->capture_default_str();
  parser->add_option("--after-laminating", o->after_laminating,
                     "size of the block of cards measured on a finished sheet, WxH in mm: scales "
                     "the cut card");
  parser->add_flag("--no-guides", o->no_guides, "no cut guides on the fronts");
  parser->add_option("--job", o->job, "name printed in the waste (default: that of the PDF)");
  parser->add_option("--out", o->out, "PDF to write")->required();
  parser->add_option("--cut-card", o->cut_card,
                     "PDF of the cut card, for plain paper (default: OUT-cutcard.pdf)");
  parser->footer(
      "Example: versolay impose --fronts fronts --back back.png --card 63x88 --paper a4 \\\n"
      "           --profile printer.json --out deck.pdf");
  return {parser, [o](const CommonOptions& common) -> Result<Outcome> {
            const ImposeRequest request = request_from(*o, common);
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
