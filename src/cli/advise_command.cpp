#include <fmt/format.h>

#include "app/advise.h"
#include "app/words.h"
#include "cli/command.h"
#include "core/numbers.h"

namespace versolay::cli {
namespace {

struct Options {
  std::string profile;
  std::string card;
  std::string grid = "auto";
  std::string gutter = "0";
  std::string ppi = "300";
  std::string coverage = "0.95";
  std::string confidence = "0.9";
  std::string count = "card";
  std::string grow = "equal";
  std::string cut_sd = "0";
  std::string step = "0";
  std::string border;
  int cards = 0;
  std::uint64_t seed = AdviceRequest{}.seed;
  bool no_rotation = false;
  bool no_scale = false;
  bool sharpen = false;
  bool table = false;
  std::string draws = "auto";
  bool verbose = false;
};

constexpr int kFullPopulations = 20000;

/// "0.1" is mm, "1px" pixels at the resolution of the artwork.
double step_from(const std::string& text, double ppi) {
  if (text.size() > 2 && text.ends_with("px")) {
    return option_number("--step", text.substr(0, text.size() - 2)) * kMmPerInch / ppi;
  }
  return option_number("--step", text);
}

CountBy count_from(const std::string& text) {
  if (text == "card") return CountBy::card;
  if (text == "sheet") return CountBy::sheet;
  throw Error("--count " + text, "must be card or sheet");
}

Growth growth_from(const std::string& text) {
  if (text == "equal") return Growth::equal;
  if (text == "proportional") return Growth::proportional;
  if (text == "per-axis") return Growth::per_axis;
  throw Error("--grow " + text, "must be equal, proportional or per-axis");
}

std::optional<GridShape> shape_from(const std::string& text) {
  if (text == "auto") return std::nullopt;
  const auto [columns, rows] = option_pair("--grid", text);
  const GridShape shape{static_cast<int>(columns), static_cast<int>(rows)};
  if (shape.columns != columns || shape.rows != rows || columns < 1 || rows < 1 || columns > 1000 ||
      rows > 1000) {
    throw Error("--grid " + text, "must be auto or two whole numbers, columns x rows, as in 3x3");
  }
  return shape;
}

AdviseRequest request_from(const Options& options) {
  AdviseRequest request;
  request.profile = options.profile;
  const auto [width, height] = option_pair("--card", options.card);
  request.card = {width, height};
  request.shape = shape_from(options.grid);
  request.gutter_mm = option_number("--gutter", options.gutter);
  AdviceRequest& a = request.advice;
  a.ppi = option_number("--ppi", options.ppi);
  a.coverage = option_number("--coverage", options.coverage);
  a.confidence = option_number("--confidence", options.confidence);
  a.count = count_from(options.count);
  a.growth = growth_from(options.grow);
  a.cut_sd_mm = option_number("--cut-sd", options.cut_sd);
  a.step_mm = step_from(options.step, a.ppi);
  a.can_rotate = !options.no_rotation;
  a.can_scale = !options.no_scale;
  a.sharpen = options.sharpen;
  if (options.cards != 0) a.cards = options.cards;
  if (!options.border.empty()) a.border_mm = option_number("--border", options.border);
  a.seed = options.seed;
  if (options.draws != "auto" && options.draws != "full") {
    throw Error("--draws " + options.draws, "must be auto or full");
  }
  if (options.draws == "full") request.populations = kFullPopulations;
  return request;
}

Json json_of(const Oversize& o) {
  return {{"x_mm", rounded(o.x_mm, 4)},
          {"y_mm", rounded(o.y_mm, 4)},
          {"x_px", o.x_px},
          {"y_px", o.y_px}};
}

Json json_of(const ExpectedGood& e) {
  return {{"cards_per_sheet", rounded(e.cards_per_sheet, 3)},
          {"low", rounded(e.low, 3)},
          {"high", rounded(e.high, 3)},
          {"cells", e.cells},
          {"whole_sheets_percent", rounded(e.whole_sheets_percent, 2)}};
}

Json savings_json(const Advice& a) {
  Json list = Json::array();
  for (const Saving& s : a.savings) {
    const double saved = a.oversize.x_mm - s.oversize.x_mm;
    list.push_back({{"more_sheets", s.sheets},
                    {"oversize", json_of(s.oversize)},
                    {"saved_x_mm", rounded(saved, 4)},
                    {"saved_x_px", rounded(artwork_px_from_mm(saved, a.request.ppi), 2)}});
  }
  return list;
}

Json cells_json(const Advice& a) {
  Json list = Json::array();
  for (const CellAdvice& c : a.cells) {
    list.push_back({{"row", c.row},
                    {"column", c.column},
                    {"back_x_mm", rounded(c.centre.x, 3)},
                    {"back_y_mm", rounded(c.centre.y, 3)},
                    {"field_x_mm", rounded(c.field_mm.x(), 4)},
                    {"field_y_mm", rounded(c.field_mm.y(), 4)},
                    {"good_percent", rounded(c.good_percent, 2)}});
  }
  return list;
}

Json curve_json(const Advice& a) {
  Json list = Json::array();
  for (const YieldPoint& y : a.curve) {
    list.push_back({{"share_of_advised", y.share_of_advised},
                    {"oversize", json_of(y.oversize)},
                    {"expected_good", json_of(y.good)}});
  }
  return list;
}

Json by_hand_json(const Advice& a) {
  Json list = Json::array();
  for (const HandMethod& h : a.by_hand) {
    list.push_back({{"total_px_at_300_ppi", h.total_px_at_300},
                    {"side_mm", rounded(h.side_mm, 4)},
                    {"as_printed", json_of(h.as_printed)},
                    {"moved_as_advised", json_of(h.moved)}});
  }
  return list;
}

Json request_json(const AdviceRequest& r, const Options& options) {
  return {{"card_mm", {r.grid.card.width_mm, r.grid.card.height_mm}},
          {"grid", {r.grid.columns, r.grid.rows}},
          {"gutter_mm", r.grid.gutter_mm},
          {"ppi", r.ppi},
          {"coverage", r.coverage},
          {"confidence", r.confidence},
          {"count", options.count},
          {"grow", options.grow},
          {"cut_sd_mm", r.cut_sd_mm},
          {"step_mm", r.step_mm},
          {"can_rotate", r.can_rotate},
          {"can_scale", r.can_scale},
          {"sharpen", r.sharpen},
          {"seed", r.seed}};
}

Json shift_json(const BackShift& s) {
  return {{"dx_mm", rounded(s.dx_mm, 4)},
          {"dy_mm", rounded(s.dy_mm, 4)},
          {"rotation_mrad", rounded(s.rotation_mrad, 4)},
          {"dx_px", rounded(s.dx_px, 2)},
          {"dy_px", rounded(s.dy_px, 2)},
          {"scale_x_ppm", rounded(s.scale_x_ppm, 1)},
          {"scale_y_ppm", rounded(s.scale_y_ppm, 1)},
          {"shear_mrad", rounded(s.shear_mrad, 4)}};
}

const char* to_string(NoShift reason) {
  switch (reason) {
    case NoShift::none:
      return "";
    case NoShift::not_real:
      return "not_real";
    case NoShift::not_settable:
      return "not_settable";
  }
  return "";
}

Json document_of(const Options& options, const AdviseReport& report) {
  const Advice& a = report.advice;
  Json document = {{"schema", "versolay.advice/1"},
                   {"profile", options.profile},
                   {"printer", report.profile.printer},
                   {"n_feeds", report.profile.n_feeds},
                   {"request", request_json(a.request, options)},
                   {"shift_advised", a.shift_advised()},
                   {"shift", shift_json(a.shift)},
                   {"shift_uncertainty",
                    {{"confidence", a.request.confidence},
                     {"dx_mm", rounded(a.shift_uncertainty.dx_mm, 4)},
                     {"dy_mm", rounded(a.shift_uncertainty.dy_mm, 4)},
                     {"rotation_mrad", rounded(a.shift_uncertainty.rotation_mrad, 4)}}},
                   {"oversize", json_of(a.oversize)},
                   {"total_px", {{"width", a.total_width_px}, {"height", a.total_height_px}}},
                   {"expected_good", json_of(a.expected_good)}};
  if (!a.shift_advised()) document["no_shift_because"] = to_string(a.no_shift);
  if (a.request.cards) {
    document["sheets_needed"] = a.sheets_needed;
    document["sheets_to_print"] = a.sheets_to_print ? Json(*a.sheets_to_print) : Json();
    document["sheets_assurance"] = a.sheets_assurance;
  }
  if (a.centring) {
    document["centring"] = {{"border_mm", a.centring->border_mm},
                            {"typical_percent", rounded(a.centring->typical_percent, 1)},
                            {"worst_percent", rounded(a.centring->worst_percent, 1)},
                            {"within_55_45_percent", rounded(a.centring->within_55_45, 1)},
                            {"within_60_40_percent", rounded(a.centring->within_60_40, 1)},
                            {"within_70_30_percent", rounded(a.centring->within_70_30, 1)}};
  }
  if (a.heavy_tails) document["oversize_heavy_tails"] = json_of(*a.heavy_tails);
  if (a.with_misfeeds) document["oversize_with_misfeeds"] = json_of(*a.with_misfeeds);
  document["misfeed_chance_high"] = rounded(a.misfeed_chance_high, 4);
  if (a.sharpened) document["oversize_sharpened"] = json_of(*a.sharpened);
  document["savings"] = savings_json(a);
  document["cells"] = cells_json(a);
  document["yield_curve"] = curve_json(a);
  document["by_hand"] = by_hand_json(a);
  document["cross_check_ratio"] = rounded(a.cross_check_ratio, 4);
  document["draws"] = {{"populations", a.draws_outer},
                       {"sheets", a.draws_inner},
                       {"standard_error_mm", rounded(a.standard_error_mm, 5)}};
  return document;
}

Outcome outcome_of(const Options& options, const AdviseReport& report) {
  Outcome outcome;
  const Advice& advice = report.advice;
  outcome.text = verdict_words(advice, report.profile);
  if (options.table) outcome.text += "\n\n" + advice_tables_words(advice);
  if (options.verbose) {
    outcome.text += fmt::format(
        "\n\nHow it was computed: generalised-fiducial tolerance bound, {} populations x {} "
        "sheets, seed {}; its Monte Carlo standard error is {} mm.\nCross-check: {} times the "
        "plug-in quantile with its tolerance factor.",
        advice.draws_outer, advice.draws_inner, advice.request.seed,
        format_fixed(advice.standard_error_mm, 4), format_fixed(advice.cross_check_ratio, 3));
  }
  outcome.document = document_of(options, report);
  outcome.warnings = advice.warnings;
  outcome.next = fmt::format(
      "versolay impose --fronts FOLDER --back BACK.png --card {} --grid {} --profile {} --out "
      "job.pdf",
      options.card, options.grid, options.profile);
  return outcome;
}

}  // namespace

Command add_advise(CLI::App& root) {
  auto options = make_options<Options>();
  CLI::App* parser = root.add_subcommand(
      "advise", "How to move the backs and how much larger to make them, and how sure that is");
  const auto add = [parser](const char* name, auto& value, const char* what) {
    return parser->add_option(name, value, what)->capture_default_str();
  };
  parser->add_option("profile", options->profile, "printer profile (JSON)")->required();
  parser->add_option("--card", options->card, "finished card, width x height in mm, as in 63x88")
      ->required();
  add("--grid", options->grid, "cards on a sheet, columns x rows, or auto");
  add("--gutter", options->gutter, "gap between neighbouring cards, mm");
  add("--ppi", options->ppi, "pixels per inch of the artwork");
  add("--coverage", options->coverage, "share of future cards (sheets) to be free of slivers");
  add("--confidence", options->confidence, "how sure the promise has to be");
  add("--count", options->count, "what the coverage counts: card or sheet");
  add("--grow", options->grow,
      "equal (same on all sides), proportional (keeps the shape) or per-axis");
  add("--cut-sd", options->cut_sd, "standard deviation of a cut edge, mm");
  add("--step", options->step,
      "the shift can be set in steps of this size only: mm, or as in 1px (0: any)");
  parser->add_option("--cards", options->cards, "cards wanted: tells how many sheets to print");
  parser->add_option("--border", options->border, "border of the card back, mm: its centring");
  parser->add_flag("--no-rotation", options->no_rotation, "the back can be moved but not turned");
  parser->add_flag("--no-scale", options->no_scale, "the back can be moved and turned, not scaled");
  parser->add_flag("--sharpen", options->sharpen, "a smaller bound that still keeps its promise");
  parser->add_flag("--table", options->table, "add the table of cells and the yield curve");
  add("--draws", options->draws, "size of the simulation: auto (enough for 0.07 px) or full");
  add("--seed", options->seed, "seed of the simulation");
  parser->add_flag("--verbose", options->verbose, "tell how it was computed");
  parser->footer(
      "Example: versolay advise inkjet.json --card 63x88 --grid 3x3 --cards 54 --border 3");
  return {parser, [options](const CommonOptions&) -> Result<Outcome> {
            const auto report = advise_from_file(request_from(*options));
            if (!report) return report.refusal();
            return outcome_of(*options, report.value());
          }};
}

}  // namespace versolay::cli
