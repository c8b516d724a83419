#include "app/compare.h"
#include "cli/command.h"
#include "cli/option_values.h"
#include "words/compare_words.h"
#include "words/translation.h"

namespace versolay::cli {
namespace {

Json interval_json(const stats::Interval& i, int decimals) {
  return {{"estimate", rounded(i.estimate, decimals)},
          {"low", rounded(i.low, decimals)},
          {"high", rounded(i.high, decimals)},
          {"p_value", rounded(i.p_value, 6)}};
}

Json comparison_json(const Comparison& c) {
  Json components = Json::array();
  for (std::size_t k = 0; k < c.components.size(); ++k) {
    const ComponentComparison& one = c.components[k];
    components.push_back(
        {{"component", kRegistrationKeys[k]},
         {"difference", interval_json(one.difference, 6)},
         {"differs", one.differs},
         {"detectable_difference", rounded(one.detectable_difference, 6)},
         {"spread_ratio", one.spread_known ? interval_json(one.spread_ratio, 4) : Json()},
         {"spread_differs", one.spread_differs}});
  }
  return {{"a", c.a},
          {"b", c.b},
          {"paired", c.paired},
          {"n_a", c.n_a},
          {"n_b", c.n_b},
          {"p_value", rounded(c.p_value, 6)},
          {"t2", rounded(c.t2, 6)},
          {"nu", rounded(c.nu, 6)},
          {"differs", c.differs},
          {"one_fed_round", c.one_fed_round},
          {"components", std::move(components)}};
}

Json foretold_json(const ForetoldTurn& f) {
  Json components = Json::array();
  for (std::size_t k = 0; k < f.foretold.size(); ++k) {
    components.push_back({{"component", kRegistrationKeys[k]},
                          {"foretold", rounded(f.foretold[k], 6)},
                          {"difference", interval_json(f.difference[k], 6)}});
  }
  return {{"by", f.by},
          {"of", f.of},
          {"agrees", f.agrees},
          {"p_value", rounded(f.p_value, 6)},
          {"components", std::move(components)}};
}

Json document_of(const CompareReport& report) {
  Json comparisons = Json::array();
  for (const Comparison& c : report.comparisons) comparisons.push_back(comparison_json(c));
  Json foretold = Json::array();
  for (const ForetoldTurn& f : report.foretold) foretold.push_back(foretold_json(f));
  Json chance = Json::array();
  for (const ChanceTest& t : report.chance) {
    chance.push_back({{"set_up", t.name},
                      {"constant_mm", rounded(t.constant_mm, 4)},
                      {"chance_mm", rounded(t.chance_mm, 4)},
                      {"constant_share", rounded(t.constant_share, 4)},
                      {"p_value", rounded(t.p_value, 6)},
                      {"only_chance_possible", t.only_chance_possible}});
  }
  return {{"schema", "versolay.comparison/1"},
          {"comparisons", std::move(comparisons)},
          {"foretold", std::move(foretold)},
          {"chance", std::move(chance)}};
}

}  // namespace

Command add_compare(CLI::App& root) {
  auto options = make_options<CompareRequest>();
  CLI::App* parser =
      root.add_subcommand("compare", tr("Compare set-ups: feed path, turn, paper, guides"));
  add_several(*parser, "files", options->files, file(),
              tr("profiles or readings, two or more; the first is compared with each other one"))
      ->required()
      ->expected(2, 50);
  parser->add_flag("--paired", options->paired,
                   tr("the sheets were fed in pairs, as on a run card: compare pair by pair"));
  parser->footer(tr("Example: versolay compare rear-tray.json front-tray.json --paired"));
  return {parser, [options](const CommonOptions& common) -> Result<Outcome> {
            const auto report = run_compare(*options);
            if (!report) return report.refusal();
            Outcome outcome;
            outcome.text = compare_words(report.value().comparisons, report.value().foretold,
                                         report.value().chance, common.unit);
            outcome.document = document_of(report.value());
            outcome.warnings = report.value().warnings;
            return outcome;
          }};
}

}  // namespace versolay::cli
