#include "cli/job_options.h"

#include "cli/command.h"
#include "core/numbers.h"
#include "core/translation.h"

namespace versolay::cli {
namespace {

constexpr int kFullPopulations = 20000;

/// "0.1" is mm, "1px" pixels at the resolution of the artwork.
double step_from(const std::string& text, double ppi) {
  if (text.size() > 2 && text.ends_with("px")) {
    return option_number("--step", text.substr(0, text.size() - 2)) * kMmPerInch / ppi;
  }
  return option_number("--step", text);
}

CountBy count_from(const std::string& text) {
  return option_choice<CountBy>("--count", text,
                                {{"card", CountBy::card}, {"sheet", CountBy::sheet}});
}

Growth growth_from(const std::string& text) {
  return option_choice<Growth>("--grow", text,
                               {{"equal", Growth::equal},
                                {"proportional", Growth::proportional},
                                {"per-axis", Growth::per_axis}});
}

}  // namespace

void add_job_options(CLI::App& parser, JobOptions& options) {
  const auto add = [&parser](const char* name, auto& value, const char* what) {
    return parser.add_option(name, value, what)->capture_default_str();
  };
  parser.add_option("profile", options.profile, tr("printer profile (JSON)"))->required();
  parser.add_option("--card", options.card, tr("finished card, width x height in mm, as in 63x88"));
  add("--grid", options.grid, tr("cards on a sheet, columns x rows, or auto"));
  add("--gutter", options.gutter, tr("gap between neighbouring cards, mm"));
  add("--ppi", options.ppi, tr("pixels per inch of the artwork"));
  add("--coverage", options.coverage, tr("share of future cards (sheets) to be free of slivers"));
  add("--confidence", options.confidence, tr("how sure the promise has to be"));
  add("--count", options.count, tr("what the coverage counts: card or sheet"));
  add("--grow", options.grow,
      tr("equal (same on all sides), proportional (keeps the shape) or per-axis"));
  add("--cut-sd", options.cut_sd,
      tr("how unevenly the cards are cut: one standard deviation of an edge, mm"));
  add("--step", options.step,
      tr("the shift can be set in steps of this size only: mm, or as in 1px (0: any)"));
  parser.add_option("--cards", options.cards, tr("cards wanted: tells how many sheets to print"));
  parser.add_option("--border", options.border, tr("border of the card back, mm: its centring"));
  parser.add_flag("--no-rotation", options.no_rotation, tr("the back can be moved but not turned"));
  parser.add_flag("--no-scale", options.no_scale,
                  tr("the back can be moved and turned, not scaled"));
  parser.add_flag("--sharpen", options.sharpen,
                  tr("with few sheets: leave away what of the oversize is mere caution; promised a "
                     "little less firmly"));
  add("--draws", options.draws, tr("size of the simulation: auto (enough for 0.006 mm) or full"));
  add("--seed", options.seed, tr("seed of the simulation"));
}

AdviseRequest request_from(const JobOptions& options) {
  AdviseRequest request;
  request.profile = options.profile;
  request.card = option_card(options.card);
  request.shape = option_grid(options.grid);
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
  const bool full =
      option_choice<bool>("--draws", options.draws, {{"auto", false}, {"full", true}});
  if (full) request.populations = kFullPopulations;
  return request;
}

}  // namespace versolay::cli
