#include "cli/sheet_lines.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>

#include "core/findings.h"
#include "core/numbers.h"
#include "registration/findings.h"
#include "registration/fronts_json.h"
#include "registration/readings_json.h"
#include "registration/sheet_studies.h"
#include "words/commands.h"
#include "words/display_unit.h"
#include "words/rejected.h"
#include "words/say.h"
#include "words/study_words.h"
#include "words/translation.h"

namespace versolay::cli {
namespace {

constexpr double kDegreesPerMrad = 180e-3 / std::numbers::pi;

/// Edges that disagree with the holes: their distances would be others.
bool edges_were_left_out(const SheetReading& sheet) {
  return std::any_of(sheet.datum_notes.begin(), sheet.datum_notes.end(), [](const Finding& note) {
    return note == findings::edges_not_followed || note == findings::edges_rough;
  });
}

std::string read_from(const SheetReading& sheet, const DisplayUnit& unit) {
  if (sheet.datum.by_eye) return words::say_all(sheet.datum_notes, unit);
  const auto edges = std::count_if(sheet.features.begin(), sheet.features.end(),
                                   [](const FeatureReading& f) { return f.normal.has_value(); });
  const auto holes = static_cast<std::ptrdiff_t>(sheet.features.size()) - edges;
  std::string words = holes > 0 ? tr("{} holes", holes) : "";
  if (edges > 0) words += tr("{}{} edge places", holes > 0 ? ", " : "", edges);
  if (edges_were_left_out(sheet)) words += tr(", edges ignored");
  if (sheet.photographed) words += tr(", photographed");
  return words;
}

std::vector<std::string> place_head(const DisplayUnit& unit) {
  return {tr("sheet"), tr("right(+) left(-)\n{} (+-: 95 %)", unit.name),
          tr("down(+) up(-)\n{} (+-: 95 %)", unit.name),
          tr("turned clockwise\ndegrees (+-: 95 %)")};
}

/// Sheet, offset and rotation, each with its 95 %.
std::vector<std::string> place_cells(int sheet, const Registration& r,
                                     const Eigen::Matrix3d& covariance, const DisplayUnit& unit) {
  const auto cell = [&](double value, int i, double factor, int decimals) {
    const double u95 = 1.96 * std::sqrt(covariance(i, i));
    return fmt::format("{}{} +-{}", value > 0 ? "+" : "", format_fixed(factor * value, decimals),
                       format_fixed(factor * u95, decimals));
  };
  return {std::to_string(sheet), cell(r.dx_mm, 0, unit.per_mm, unit.decimals(3)),
          cell(r.dy_mm, 1, unit.per_mm, unit.decimals(3)),
          cell(r.rotation_mrad, 2, kDegreesPerMrad, 3)};
}

bool is_unknown_rotation(const Notice& n) { return n == findings::rotation_unknown; }

TextTable sheet_table(const std::vector<SheetReading>& sheets, const DisplayUnit& unit) {
  TextTable table;
  table.ends_in_words = true;
  table.head = place_head(unit);
  table.head.push_back(tr("read from"));
  for (const SheetReading& sheet : sheets) {
    table.rows.push_back(
        place_cells(sheet.sheet, sheet.registration, sheet.covariance.topLeftCorner<3, 3>(), unit));
    if (!sheet.rotation_measured()) table.rows.back().back() = tr("not measured");
    table.rows.back().push_back(read_from(sheet, unit));
  }
  return table;
}

/// The same finding, with the sheet that it is about.
Finding of_sheet(int sheet, Finding finding, const DisplayUnit& unit) {
  const std::string text = tr("Sheet {}: {}", sheet, words::say(finding, unit));
  finding.facts.push_back({"sheet", std::int64_t{sheet}});
  return words::said_as(std::move(finding), text);
}

bool read_by_edges_alone(const SheetReading& sheet) {
  return std::all_of(sheet.features.begin(), sheet.features.end(),
                     [](const FeatureReading& f) { return f.normal.has_value(); });
}

/// Holes go through the paper and tie its two sides together; edges look the same on every sheet.
std::string what_edges_cannot_tell(const std::vector<SheetReading>& sheets) {
  const bool any = std::any_of(sheets.begin(), sheets.end(), [](const SheetReading& sheet) {
    return !sheet.datum.by_eye && read_by_edges_alone(sheet);
  });
  if (!any) return "";
  return tr(
      "Read by edges alone, two sheets that carry the same number look like one: never mix scans "
      "of two prints of the same file.");
}

/// Distances from holes beside distances from the paper's edges: two ways to read one thing.
std::string what_was_read_differs(const std::vector<SheetReading>& sheets) {
  const auto by_edges = std::count_if(sheets.begin(), sheets.end(), [](const SheetReading& sheet) {
    return !sheet.datum.by_eye && read_by_edges_alone(sheet);
  });
  if (by_edges == 0 || by_edges == static_cast<std::ptrdiff_t>(sheets.size())) return "";
  return trn(
      "{} of these sheets was read from the edges of the paper alone, the others from their holes: "
      "check the last column before you compare them.",
      "{} of these sheets were read from the edges of the paper alone, the others from their "
      "holes: check the last column before you compare them.",
      by_edges);
}

/// A first deck is printed as it is.
bool any_corrected(const std::vector<SheetReading>& sheets) {
  return std::any_of(sheets.begin(), sheets.end(), [](const SheetReading& sheet) {
    return sheet.correction && *sheet.correction != Registration{};
  });
}

}  // namespace

Outcome outcome_of_readings(const Readings& readings, const std::string& out, bool verbose,
                            const DisplayUnit& unit) {
  Outcome outcome;
  outcome.text =
      tr("{} read, written to {}. How far each back landed from its front, seen from the back:\n\n",
         trn("{} sheet", "{} sheets", readings.sheets.size()), out);
  outcome.text += sheet_table(readings.sheets, unit);
  const bool no_rotations =
      std::none_of(readings.sheets.begin(), readings.sheets.end(),
                   [](const SheetReading& sheet) { return sheet.rotation_measured(); });
  if (no_rotations) outcome.warnings.push_back(findings::rotation_unknown());  // once is enough
  for (const SheetReading& sheet : readings.sheets) {
    for (const Notice& n : sheet.warnings) {
      if (no_rotations && is_unknown_rotation(n)) continue;
      outcome.warnings.push_back(of_sheet(sheet.sheet, n, unit));
    }
  }
  for (const words::RejectedText& r : words::rejected_texts(readings.rejected, unit)) {
    outcome.warnings.push_back(words::said_as(r.why, tr("Left out: {}", r.text)));
  }
  if (const std::string mixed = what_was_read_differs(readings.sheets); !mixed.empty()) {
    outcome.text += "\n\n" + mixed;
  }
  if (verbose) {
    const Studies studies = studies_of(readings.sheets, readings.turn, readings.paper);
    for (const StudySentence& sentence : study_words(studies)) {
      outcome.text += "\n\n" + sentence.text;
    }
  }
  if (const std::string limit = what_edges_cannot_tell(readings.sheets); !limit.empty()) {
    outcome.text += "\n\n" + limit;
  }
  outcome.document = json_of(readings);
  const auto production =
      std::count_if(readings.sheets.begin(), readings.sheets.end(),
                    [](const SheetReading& sheet) { return sheet.correction.has_value(); });
  if (production > 0 && !any_corrected(readings.sheets)) {
    outcome.text +=
        tr("\nThese sheets are from a job that was printed without a correction: they show the "
           "error of the printer as test sheets would.");
  } else if (production > 0) {
    outcome.text +=
        trn("\n{} sheet is from a job, by the marks in the waste: this is the error left after the "
            "correction that it was printed with.",
            "\n{} sheets are from a job, by the marks in the waste: this is the error left after "
            "the correction that they were printed with.",
            production);
    outcome.next = fmt::format("versolay check printer.json {}", shell_word(out));
    return outcome;
  }
  outcome.next = fmt::format("versolay profile {} --printer \"my printer\" --out printer.json",
                             shell_word(out));
  return outcome;
}

Outcome outcome_of_fronts(const Fronts& fronts, const std::string& out, const DisplayUnit& unit) {
  Outcome outcome;
  outcome.text =
      tr("{} read, written to {}. How far each print is from the middle of its sheet, seen from "
         "the front:\n\n",
         trn("{} front", "{} fronts", fronts.fronts.size()), out);
  TextTable table;
  table.head = place_head(unit);
  table.head.push_back(tr("paper\nmm"));
  for (const FrontReading& front : fronts.fronts) {
    const PrintLay& lay = front.lay;
    table.rows.push_back(
        place_cells(front.sheet, {lay.dx_mm, lay.dy_mm, lay.rotation_mrad}, lay.covariance, unit));
    table.rows.back().push_back(fmt::format("{} x {}", format_fixed(lay.paper_width_mm, 2),
                                            format_fixed(lay.paper_height_mm, 2)));
    for (const Notice& n : front.warnings) {
      outcome.warnings.push_back(of_sheet(front.sheet, n, unit));
    }
  }
  outcome.text += table;
  for (const words::RejectedText& r : words::rejected_texts(fronts.rejected, unit)) {
    outcome.warnings.push_back(words::said_as(r.why, tr("Left out: {}", r.text)));
  }
  outcome.document = json_of(fronts);
  outcome.next = fmt::format(
      "versolay impose --fronts fronts --back back.png --card 63x88 --profile printer.json "
      "--fitted-to {} --out backs.pdf",
      shell_word(out));
  return outcome;
}

}  // namespace versolay::cli
