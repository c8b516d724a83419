#include "cli/sheet_lines.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "app/rejected_text.h"
#include "app/study_words.h"
#include "core/numbers.h"
#include "registration/datum_words.h"
#include "registration/readings_json.h"
#include "registration/studies.h"

namespace versolay::cli {
namespace {

std::string read_from(const SheetReading& sheet) {
  if (sheet.datum == kDatumByEye) return sheet.datum_reason;
  const auto edges = std::count_if(sheet.features.begin(), sheet.features.end(),
                                   [](const FeatureReading& f) { return f.normal.has_value(); });
  const auto holes = static_cast<std::ptrdiff_t>(sheet.features.size()) - edges;
  std::string words = holes > 0 ? fmt::format("{} holes", holes) : "";
  if (edges > 0) words += fmt::format("{}{} edge places", holes > 0 ? ", " : "", edges);
  if (sheet.datum.ends_with(kPhotographed)) words += kPhotographed;
  return words;
}

std::string sheet_line(const SheetReading& sheet) {
  const auto value = [](double v, int decimals) {
    return (v > 0 ? "+" : "") + format_fixed(v, decimals);
  };
  const auto u95 = [&](int i) { return 1.96 * std::sqrt(sheet.covariance(i, i)); };
  return fmt::format("{:>5}  {:>7} +-{}  {:>7} +-{}  {:>7} +-{}   {}", sheet.sheet,
                     value(sheet.registration.dx_mm, 3), format_fixed(u95(0), 3),
                     value(sheet.registration.dy_mm, 3), format_fixed(u95(1), 3),
                     value(sheet.registration.rotation_mrad, 2), format_fixed(u95(2), 2),
                     read_from(sheet));
}

}  // namespace

Outcome outcome_of_readings(const Readings& readings, const std::string& out) {
  Outcome outcome;
  outcome.text = fmt::format(
      "{} {} read, written to {}. How far each back landed from its front, seen from the "
      "back:\n\n"
      "sheet   right(+) left(-)    down(+) up(-)   turned clockwise   read from\n"
      "             mm                 mm            mrad (+-: 95 %)",
      readings.sheets.size(), readings.sheets.size() == 1 ? "sheet" : "sheets", out);
  for (const SheetReading& sheet : readings.sheets) {
    outcome.text += "\n" + sheet_line(sheet);
    for (const Notice& n : sheet.warnings) {
      outcome.warnings.push_back({n.code, fmt::format("Sheet {}: {}", sheet.sheet, n.message)});
    }
  }
  for (const Notice& n : rejected_notices(readings.rejected)) {
    outcome.warnings.push_back({n.code, "Left out: " + n.message});
  }
  const Studies studies = studies_of(readings.sheets, readings.turn, readings.paper);
  for (const StudySentence& sentence : study_words(studies)) {
    outcome.text += "\n\n" + sentence.text;
  }
  outcome.document = json_of(readings);
  const auto production =
      std::count_if(readings.sheets.begin(), readings.sheets.end(),
                    [](const SheetReading& sheet) { return sheet.correction.has_value(); });
  if (production > 0) {
    outcome.text += fmt::format(
        "\n{} of a job, by the marks in the waste: this is what is left after the correction that "
        "{} printed with.",
        production == 1 ? "1 sheet is" : fmt::format("{} sheets are", production),
        production == 1 ? "it was" : "they were");
    outcome.next = fmt::format("versolay check printer.json {}", out);
    return outcome;
  }
  outcome.next =
      fmt::format("versolay profile {} --printer \"my printer\" --out printer.json", out);
  return outcome;
}

}  // namespace versolay::cli
