#include "words/plan_words.h"

#include "core/numbers.h"
#include "words/advice_words.h"
#include "words/direction_words.h"
#include "words/translation.h"

namespace versolay {

PlanWords plan_words(const Plan& planned, const DisplayUnit& unit) {
  const SampleSizePlan& plan = planned.sheets;
  const double ppi = planned.asked.ppi;
  const PlanRow& advised =
      plan.rows[static_cast<std::size_t>(plan.advised - plan.rows.front().sheets)];
  PlanWords words;
  words.advice =
      tr("Print {} target sheets, from the same tray and pack, in one go.\nWith a spread of {} "
         "from feed to feed at the cards ({}), the oversize for {} of the cards with {} confidence "
         "will then be about {} a side; no number of sheets brings it below {}.",
         plan.advised, distance_words(planned.asked.sd_mm, unit),
         planned.sd_is_measured ? tr("from the profile; one standard deviation")
                                : tr("assumed; one standard deviation"),
         percent_words(planned.asked.coverage), percent_words(planned.asked.confidence),
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
  if (planned.runs.empty()) {
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
      planned.order.blocks, planned.order.set_ups.size(),
      format_number(planned.power.paired_difference, 2));
  words.notes += planned.power.spread_ratio > 0
                     ? tr("It can detect a spread that is {} times as large. Confirm the result on "
                          "another day.\n",
                          format_number(planned.power.spread_ratio, 1))
                     : tr("Comparing spreads takes 4 sheets of each set-up or more. Confirm the "
                          "result on another day.\n");
  for (const Run& run : planned.runs) {
    words.notes +=
        tr("  run {}: sheet {}: {}\n", run.number, run.number, planned.order.set_ups[run.set_up]);
  }
  return words;
}

}  // namespace versolay
