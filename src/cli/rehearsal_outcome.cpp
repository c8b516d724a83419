#include "cli/rehearsal_outcome.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "cli/option_values.h"
#include "core/numbers.h"
#include "core/registration_json.h"
#include "words/commands.h"
#include "words/direction_words.h"
#include "words/rejected.h"
#include "words/say.h"
#include "words/translation.h"

namespace versolay::cli {
namespace {

std::string signed_fixed(double value, int decimals) {
  return (value > 0 ? "+" : "") + format_fixed(value, decimals);
}

/// For developers: true, read, and by how much they differ.
TextTable table(const std::vector<RehearsedSheet>& sheets) {
  TextTable table;
  table.head = {tr("sheet"),
                tr("true\nright, mm"),
                tr("true\ndown, mm"),
                tr("true\nturn, mrad"),
                tr("read\nright, mm"),
                tr("read\ndown, mm"),
                tr("read\nturn, mrad"),
                tr("wrong by\nright, um"),
                tr("wrong by\ndown, um"),
                tr("wrong by\nturn, mrad")};
  for (const RehearsedSheet& s : sheets) {
    std::vector<std::string> row = {std::to_string(s.sheet)};
    const auto add = [&](double value, int decimals) {
      row.push_back(signed_fixed(value, decimals));
    };
    const auto add_all = [&](const Registration& r) {
      add(r.dx_mm, 3);
      add(r.dy_mm, 3);
      add(r.rotation_mrad, 2);
    };
    add_all(s.truth);
    if (s.reading) {
      const Registration& r = s.reading->registration;
      add_all(r);
      add((r.dx_mm - s.truth.dx_mm) * 1e3, 0);
      add((r.dy_mm - s.truth.dy_mm) * 1e3, 0);
      add(r.rotation_mrad - s.truth.rotation_mrad, 3);
    } else {
      row.emplace_back(tr("left out"));
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

/// Root mean square of estimate minus truth: dx mm, dy mm, rotation mrad.
Eigen::Vector3d rms_error(const std::vector<RehearsedSheet>& sheets) {
  Eigen::Vector3d sum = Eigen::Vector3d::Zero();
  int read = 0;
  for (const RehearsedSheet& s : sheets) {
    if (!s.reading) continue;
    sum += (s.reading->registration.vec() - s.truth.vec()).head<3>().array().square().matrix();
    ++read;
  }
  return (sum / std::max(1, read)).cwiseSqrt();
}

std::string rms_words(const std::vector<RehearsedSheet>& sheets) {
  const Eigen::Vector3d rms = rms_error(sheets);
  return tr("The readings are wrong by {} um left-right, {} um up-down and {} mrad (rms).",
            format_fixed(rms[0] * 1e3, 0), format_fixed(rms[1] * 1e3, 0), format_fixed(rms[2], 3));
}

Json sheet_json(const RehearsedSheet& s) {
  return {{"sheet", s.sheet},
          {"truth", json_of(s.truth)},
          {"estimate", s.reading ? json_of(s.reading->registration) : Json()}};
}

Json sheets_json(const std::vector<RehearsedSheet>& sheets) {
  Json list = Json::array();
  for (const RehearsedSheet& s : sheets) list.push_back(sheet_json(s));
  return list;
}

Json error_json(const std::vector<RehearsedSheet>& sheets) {
  const Eigen::Vector3d rms = rms_error(sheets);
  return {{"dx_mm", rounded(rms[0], 6)},
          {"dy_mm", rounded(rms[1], 6)},
          {"rotation_mrad", rounded(rms[2], 6)}};
}

double offset_mm(const Registration& r) { return std::hypot(r.dx_mm, r.dy_mm); }

void warn_of_those_left_out(const std::vector<RejectedInput>& rejected, Outcome& outcome) {
  for (const words::RejectedText& r : words::rejected_texts(rejected)) {
    outcome.warnings.push_back(words::said_as(r.why, tr("Left out: {}", r.text)));
  }
}

std::string printer_words(const std::optional<std::filesystem::path>& like) {
  if (!like) return tr("a simulated printer");
  return tr("a simulated printer with the errors of {}", like->string());
}

/// "The readings are accurate to within 0.03 mm everywhere on the sheets."
std::string reading_words(const std::vector<RehearsedSheet>& sheets, const Paper& paper,
                          const DisplayUnit& unit) {
  return tr("The readings are accurate to within {} everywhere on the sheets.",
            distance_words(largest_reading_error_mm(sheets, paper), unit));
}

std::string played_words(const std::string& what, const std::optional<std::filesystem::path>& like,
                         std::size_t sheets, double dpi, const std::filesystem::path& folder) {
  return trn("Rehearsed: {1} on {2}, {0} sheet, scanned at {3} dpi. All files are in {4}.",
             "Rehearsed: {1} on {2}, {0} sheets, scanned at {3} dpi. All files are in {4}.",
             static_cast<long>(sheets), what, printer_words(like), format_number(dpi, 0),
             folder.string());
}

std::string how_to_see_all(std::uint64_t seed) {
  return tr(
      "To list every sheet with its true values, repeat the run with --verbose --seed {} --force.",
      seed);
}

/// The developer's table, or how to see it.
void add_sheets(const std::vector<RehearsedSheet>& sheets, std::uint64_t seed, bool verbose,
                PrintedText& text) {
  if (!verbose) {
    text += "\n" + how_to_see_all(seed);
    return;
  }
  text += tr("\n\nHow far each back landed from its front, seen from the back (seed {}):", seed);
  text += "\n\n";
  text += table(sheets);
  text += "\n\n" + rms_words(sheets);
}

/// Looks at what was seen in the scans.
std::string overlay_command(const std::filesystem::path& folder) {
  return fmt::format("versolay measure {} --out {} --overlay {}",
                     shell_word((folder / "print" / "scans").string()),
                     shell_word((folder / "seen.json").string()),
                     shell_word((folder / "overlays").string()));
}

std::string cards_words(const CleanCards& c, std::size_t sheets, const DisplayUnit& unit) {
  const double side = std::max(c.oversize.x_mm, c.oversize.y_mm);
  const std::string share =
      c.clean == c.cards
          ? trn("the only card of {1} would be clean", "all {0} cards of {1} would be clean",
                c.cards, trn("{} proof sheet", "{} proof sheets", static_cast<long>(sheets)))
          : tr("{} of the {} cards of {} would be clean", c.clean, c.cards,
               trn("{} proof sheet", "{} proof sheets", static_cast<long>(sheets)));
  return tr(
      "With backs that are {} larger on every side, as the profile advises for cards of {} mm, {}: "
      "no sliver at an edge.",
      distance_words_up(side, unit), card_size().text(c.card), share);
}

}  // namespace

Outcome outcome_of(const RehearseRequest& request, const RehearseReport& report, bool verbose,
                   const DisplayUnit& unit) {
  Outcome outcome;
  const double before = offset_mm(report.mean_truth);
  const double after = offset_mm(report.proof_mean_truth);
  const std::string what = request.target ? request.target->string() : std::string(tr("a target"));
  outcome.text = played_words(what, request.printer_like, report.sheets.size(),
                              request.settings.scanner.dpi, request.folder);
  outcome.text += "\n" + reading_words(report.sheets, report.paper, unit);
  outcome.text += tr("\nThe printer is {} off on average; corrected, {} is left.",
                     distance_words(before, unit), distance_words(after, unit));
  if (report.cards) {
    outcome.text += "\n" + cards_words(*report.cards, report.proof.size(), unit);
  } else {
    outcome.text += tr("\nThese sheets are too few to say how much larger the backs have to be.");
  }
  add_sheets(report.sheets, report.seed, verbose, outcome.text);
  if (verbose) {
    outcome.text += tr("\n\nProof sheets, printed from corrected.pdf:");
    outcome.text += "\n\n";
    outcome.text += table(report.proof);
  }
  outcome.document = {
      {"folder", request.folder.string()},
      {"seed", report.seed},
      {"run", report.run},
      {"dpi", request.settings.scanner.dpi},
      {"sheets", sheets_json(report.sheets)},
      {"rms_error", error_json(report.sheets)},
      {"largest_error_mm", rounded(largest_reading_error_mm(report.sheets, report.paper), 6)},
      {"printer_mean", json_of(report.mean_truth)},
      {"profile_mean", json_of(report.profile.mean)},
      {"remaining_mean", json_of(report.proof_mean_truth)},
      {"proof", sheets_json(report.proof)}};
  if (report.cards) {
    outcome.document["proof_cards"] = {
        {"card_mm", {report.cards->card.width_mm, report.cards->card.height_mm}},
        {"oversize_mm",
         {rounded(report.cards->oversize.x_mm, 4), rounded(report.cards->oversize.y_mm, 4)}},
        {"cards", report.cards->cards},
        {"clean", report.cards->clean}};
  }
  warn_of_those_left_out(report.rejected, outcome);
  outcome.next = report.cards ? advise_command(request.folder / "profile.json")
                              : overlay_command(request.folder);
  return outcome;
}

namespace {

std::vector<RehearsedSheet> sheets_of(const RehearseJobReport& report) {
  std::vector<RehearsedSheet> sheets;
  for (const RehearsedJobSheet& s : report.sheets) sheets.push_back(s.sheet);
  return sheets;
}

struct AllCards {
  int cards = 0;
  int clean = 0;
  double worst_off_mm = 0.0;
  int worst_sheet = 0;
  std::vector<std::string> sheets_with_slivers;
};

/// nullopt: the PDF does not say where its cards are.
std::optional<AllCards> all_cards(const RehearseJobReport& report) {
  AllCards all;
  for (const RehearsedJobSheet& s : report.sheets) {
    if (!s.cards) return std::nullopt;
    all.cards += s.cards->cards;
    all.clean += s.cards->clean;
    if (s.cards->clean < s.cards->cards) {
      all.sheets_with_slivers.push_back(std::to_string(s.sheet.sheet));
    }
    if (s.cards->worst_off_mm >= all.worst_off_mm) {
      all.worst_off_mm = s.cards->worst_off_mm;
      all.worst_sheet = s.sheet.sheet;
    }
  }
  return all;
}

std::string job_cards_words(const AllCards& all, const DisplayUnit& unit) {
  std::string text =
      all.clean == all.cards
          ? trn("The only card is clean: no sliver at an edge.",
                "All {} cards are clean: no sliver at an edge.", all.cards)
          : tr("{} of {} cards are clean; the others show a sliver at an edge (sheets: {}).",
               all.clean, all.cards, words::list_of(all.sheets_with_slivers, 12));
  return text + tr(" The worst card is {} off at a corner (sheet {}).",
                   distance_words(all.worst_off_mm, unit), all.worst_sheet);
}

std::string verdict_words(const CheckReport& check, const std::string& profile) {
  switch (check.check.verdict) {
    case CheckVerdict::pool:
      return tr("versolay check of the scans against {}: the profile still holds.", profile);
    case CheckVerdict::recentre:
      return tr(
          "versolay check of the scans against {}: the printer's offset has changed. Move the "
          "backs again.",
          profile);
    case CheckVerdict::start_again:
      return tr(
          "versolay check of the scans against {}: the spread has changed. Start a new profile.",
          profile);
  }
  return "";
}

Json job_json(const RehearseJobRequest& request, const RehearseJobReport& report) {
  const std::vector<RehearsedSheet> sheets = sheets_of(report);
  Json list = Json::array();
  for (const RehearsedJobSheet& s : report.sheets) {
    list.push_back(sheet_json(s.sheet));
    if (!s.cards) continue;
    list.back()["cards"] = s.cards->cards;
    list.back()["clean"] = s.cards->clean;
    list.back()["worst_off_mm"] = rounded(s.cards->worst_off_mm, 6);
  }
  Json document = {{"folder", request.folder.string()},
                   {"seed", report.seed},
                   {"run", report.run},
                   {"dpi", request.settings.scanner.dpi},
                   {"sheets", std::move(list)},
                   {"rms_error", error_json(sheets)},
                   {"largest_error_mm", rounded(largest_reading_error_mm(sheets, report.paper), 6)},
                   {"printer_mean", json_of(report.printer_mean)},
                   {"remaining_mean", json_of(report.landed_mean)}};
  if (report.check) {
    document["profile_mean"] = json_of(report.check->profile.mean);
    document["check"] = to_string(report.check->check.verdict);
  }
  return document;
}

}  // namespace

Outcome outcome_of(const RehearseJobRequest& request, const RehearseJobReport& report, bool verbose,
                   const DisplayUnit& unit) {
  Outcome outcome;
  const std::vector<RehearsedSheet> sheets = sheets_of(report);
  outcome.text = played_words(request.job.string(),
                              request.printer_like ? request.printer_like : request.profile,
                              sheets.size(), request.settings.scanner.dpi, request.folder);
  outcome.text += tr("\nOn average its backs landed {}.", landing_words(report.landed_mean, unit));
  if (const auto all = all_cards(report)) {
    outcome.text += "\n" + job_cards_words(*all, unit);
  } else {
    outcome.text +=
        tr("\nLay out the deck again with this version to count the cards with a sliver: the PDF "
           "does not state where its cards are.");
  }
  outcome.text += "\n" + reading_words(sheets, report.paper, unit);
  if (report.check) {
    outcome.text += "\n" + verdict_words(*report.check, request.profile->string());
  } else if (report.check_refused) {
    outcome.warnings.push_back(*report.check_refused);
  }
  add_sheets(sheets, report.seed, verbose, outcome.text);
  outcome.document = job_json(request, report);
  warn_of_those_left_out(report.rejected, outcome);
  outcome.next = overlay_command(request.folder);
  return outcome;
}

}  // namespace versolay::cli
