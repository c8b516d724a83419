#include "cli/advise_options.h"

#include "cli/option_values.h"
#include "cli/shared_options.h"
#include "core/numbers.h"
#include "words/translation.h"

namespace versolay::cli {
namespace {

constexpr int kFullPopulations = 20000;
constexpr double kWidestBorderMm = 40.0;

/// "0.1" is mm, "1px" pixels at the resolution of the artwork.
Typed<Step> step() {
  const Typed<double> plain = number("LENGTH");
  return {"LENGTH",
          [plain](const std::string& option, const std::string& text) {
            if (!text.ends_with("px")) return Step{plain.value(option, text), false};
            return Step{plain.value(option, text.substr(0, text.size() - 2)), true};
          },
          [](const Step& step) { return format_number(step.size, 6) + (step.px ? "px" : ""); }};
}

}  // namespace

void add_advise_options(CLI::App& parser, AdviseRequest& request) {
  AdviceRequest& advice = request.advice;
  add_profile_argument(parser, request.profile);
  add_recentre(parser, request.recentre);
  add_card(parser, request.card);
  add_grid(parser, request.shape);
  add_gutter(parser, request.gutter_mm);
  add_ppi(parser, advice.ppi);
  add_coverage(parser, advice.coverage);
  add_confidence(parser, advice.confidence);
  add_typed(parser, "--count", advice.count,
            choice<CountBy>({{"card", CountBy::card}, {"sheet", CountBy::sheet}}),
            tr("what the coverage counts"));
  add_typed(parser, "--grow", advice.growth,
            choice<Growth>({{"equal", Growth::equal},
                            {"proportional", Growth::proportional},
                            {"per-axis", Growth::per_axis}}),
            tr("equal (same on all sides), proportional (keeps the shape) or per-axis"));
  add_typed(parser, "--cut-sd", advice.cut_sd_mm, length(5),
            tr("cutting error: one standard deviation of an edge"));
  add_typed(parser, "--step", request.step, step(),
            tr("step in which the shift can be set: mm, or as in 1px (0: any)"));
  add_typed(parser, "--cards", advice.cards, optional(whole_number()),
            tr("cards wanted: reports how many sheets to print"));
  add_typed(parser, "--border", advice.border_mm, optional(length(kWidestBorderMm)),
            tr("border of the card back: reports its centring"));
  add_back_edge(parser, advice.back_edge);
  add_typed(parser, "--today", advice.today_mm, optional(length(20)),
            tr("how much larger than the card your backs are today, in width and in height, such "
               "as 16px: compares that with the advice"));
  add_no_rotation(parser, advice.can_rotate);
  add_no_scale(parser, advice.can_scale);
  add_typed(parser, "--draws", request.populations,
            choice<int>({{"auto", 0}, {"full", kFullPopulations}}),
            tr("size of the simulation: auto (enough for 0.006 mm) or full"));
  add_seed(parser, advice.seed);
}

}  // namespace versolay::cli
