#include "app/plan.h"

#include <algorithm>
#include <cmath>

#include "core/files.h"
#include "core/numbers.h"
#include "layout/grid.h"
#include "profile/profile_json.h"
#include "report/run_card.h"
#include "words/advice_words.h"
#include "words/translation.h"

namespace versolay {
namespace {

/// Spread of the left-right or up-down place of a card's edge, whichever is larger, at the outer
/// cards of the page: shift and rotation together.
double spread_at_cards(const PrinterProfile& profile, const CardSize& card) {
  const double x = profile.paper.width_mm / 2 - card.width_mm / 2;
  const double y = profile.paper.height_mm / 2 - card.height_mm / 2;
  double largest = 0.0;
  for (const Point<VersoMm>& p : {Point<VersoMm>{x, y}, Point<VersoMm>{x, -y}}) {
    const auto j = displacement_jacobian(p);
    largest =
        std::max(largest, (j * profile.spread_covariance * j.transpose()).diagonal().maxCoeff());
  }
  return std::sqrt(largest);
}

}  // namespace

Result<PlanReport> run_plan(const PlanRequest& job) {
  if (!job.out.empty()) check_output(job.out, job.replace);
  PlanReport report;
  SampleSizeRequest request = job.plan;
  if (job.profile) {
    const PrinterProfile profile = read_profile(*job.profile);
    if (profile.spread_dof < 1) {
      return Refusal{"spread_unknown", tr("{} has no spread: it was made from one sheet. Plan "
                                          "without it, or estimate the spread with --sd",
                                          job.profile->string())};
    }
    request.sd_mm = spread_at_cards(profile, job.card);
    report.sd_is_measured = true;
    request.spread = profile.spread_covariance;
    request.turn = profile.turn;
    request.paper = profile.paper;
    GridRequest cards;
    cards.paper = profile.paper;
    cards.card = job.card;
    Result<CardGrid> grid = fit_grid(cards);
    if (!grid) return grid.refusal();
    request.grid = std::move(grid).value();
  }
  report.sd_mm = request.sd_mm;
  report.sheets = plan_sample_size(request);
  if (!job.runs.set_ups.empty()) {
    report.runs = run_order(job.runs);
    report.power = run_power(job.runs.blocks);
    if (!job.out.empty()) {
      const bool pdf = job.out.extension() == ".pdf";
      write_file_atomically(
          job.out, pdf ? run_card_pdf(job.runs, report.runs) : run_card_text(job.runs, report.runs),
          job.replace);
    }
  } else if (!job.out.empty()) {
    throw Error("--out",
                tr("is for the run card of an experiment: name the set-ups with --compare"));
  }
  return report;
}

PlanWords plan_words(const PlanRequest& job, const PlanReport& report, const DisplayUnit& unit) {
  const SampleSizePlan& plan = report.sheets;
  const double ppi = job.plan.ppi;
  const PlanRow& advised =
      plan.rows[static_cast<std::size_t>(plan.advised - plan.rows.front().sheets)];
  PlanWords words;
  words.advice =
      tr("Print {} target sheets, from the same tray and pack, in one go.\nWith a spread of {} "
         "from feed to feed at the cards ({}), the oversize for {} of the cards with {} confidence "
         "will then be about {} a side; no number of sheets brings it below {}.",
         plan.advised, distance_words(report.sd_mm, unit),
         report.sd_is_measured ? tr("from the profile; one standard deviation")
                               : tr("assumed; one standard deviation"),
         percent_words(job.plan.coverage), percent_words(job.plan.confidence),
         length_words(advised.oversize_mm, ppi, unit), length_words(plan.limit_mm, ppi, unit));
  words.sheets.head = {tr("sheets"), tr("oversize\na side"), tr("one more\nsaves"),
                       tr("finds a constant\noffset of")};
  for (const PlanRow& row : plan.rows) {
    if (row.sheets > 10 && row.sheets % 5 != 0) continue;
    words.sheets.rows.push_back(
        {std::to_string(row.sheets), oversize_length_words(row.oversize_mm, row.oversize_px, unit),
         distance_words(row.saved_by_next_mm, unit), distance_words(row.smallest_offset_mm, unit)});
  }
  words.notes = tr("px are at {} ppi, rounded up; offsets are found four times out of five.",
                   format_number(ppi, 0));
  if (report.runs.empty()) {
    words.choices.head = {tr("sheets"), tr("fed, each\nside"), tr("oversize\na side"),
                          tr("feeds"),  tr("scans"),           tr("minutes")};
    for (const PlanChoice& c : plan.choices) {
      words.choices.rows.push_back({std::to_string(c.sheets), tr("{} x", c.passes),
                                    oversize_length_words(c.oversize_mm, c.oversize_px, unit),
                                    std::to_string(c.feeds), std::to_string(c.scans),
                                    std::to_string(c.minutes)});
    }
    words.choices_notes =
        tr("A sheet that is fed several times (target --passes) saves paper and scans. Minutes are "
           "working time, without drying. Differences between sheets are assumed to be a tenth of "
           "the variance.");
    return words;
  }
  words.notes += tr(
      "\n\nExperiment: {} sheets of each of {} set-ups, in this order. In pairs it can detect a "
      "difference between the constant parts of {} times the spread of the differences (four times "
      "out of five). ",
      job.runs.blocks, job.runs.set_ups.size(), format_number(report.power.paired_difference, 2));
  words.notes += report.power.spread_ratio > 0
                     ? tr("It can detect a spread that is {} times as large. Confirm the result on "
                          "another day.\n",
                          format_number(report.power.spread_ratio, 1))
                     : tr("Comparing spreads takes 4 sheets of each set-up or more. Confirm the "
                          "result on another day.\n");
  for (const Run& run : report.runs) {
    words.notes +=
        tr("  run {}: sheet {}: {}\n", run.number, run.number, job.runs.set_ups[run.set_up]);
  }
  if (!job.out.empty()) words.notes += tr("Run card: {}", job.out.string());
  return words;
}

}  // namespace versolay
