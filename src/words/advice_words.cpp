#include "words/advice_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "core/numbers.h"
#include "words/say.h"
#include "words/study_words.h"
#include "words/translation.h"

namespace versolay {
namespace {

std::string percent(double share) { return percent_words(share); }

/// The shift as it is to be made. Parts that would read "0.00 mm" are left out.
std::string shift_words(const Advice& advice, const DisplayUnit& unit) {
  const BackShift& s = advice.shift;
  const double ppi = advice.request.ppi;
  const bool moves_across = std::abs(s.dx_mm) >= 0.005;
  const bool moves_along = std::abs(s.dy_mm) >= 0.005;
  std::string text;
  if (moves_across) {
    text += tr("{} to the {}", length_words(s.dx_mm, ppi, unit), across_words(s.dx_mm));
  }
  if (moves_along) {
    if (moves_across) text += tr(" and ");
    text += fmt::format("{} {}", length_words(s.dy_mm, ppi, unit), along_words(s.dy_mm));
  }
  if (!text.empty()) text = tr("Move the back image {}, seen from the back", text);
  if (std::abs(s.rotation_mrad) >= 0.005) {
    text += tr("{} {} {} about the centre of the page",
               text.empty() ? tr("Turn the back image") : tr(", turn it"),
               angle_words(s.rotation_mrad), sense_words(s.rotation_mrad));
    if (!moves_across && !moves_along) text += tr(", seen from the back");
  }
  return text.empty() ? tr("Leave the back image where it is") : text;
}

std::string action_words(const Advice& advice, const PrinterProfile& profile,
                         const DisplayUnit& unit) {
  switch (advice.no_shift) {
    case NoShift::none:
      return shift_words(advice, unit);
    case NoShift::not_settable:
      return tr("Leave the back image where it is: it landed {}, less than one {}",
                landing_words(profile.mean, unit),
                advice.request.step_mm > kMmPerInch / advice.request.ppi ? tr("step of the shift")
                                                                         : tr("pixel"));
  }
  return "";
}

std::string oversize_words(const Advice& advice, const DisplayUnit& unit) {
  const Oversize& o = advice.oversize;
  const double ppi = advice.request.ppi;
  const std::string total =
      advice.total_width_px == advice.total_height_px
          ? tr("{} px more in width and in height in total", advice.total_width_px)
          : tr("{} px more in width and {} px more in height in total", advice.total_width_px,
               advice.total_height_px);
  if (o.x_px == o.y_px && std::abs(o.x_mm - o.y_mm) < 1e-9) {
    return tr("{} beyond the card on each of its four sides: {}",
              oversize_length_words(o.x_mm, o.x_px, ppi, unit), total);
  }
  return tr(
      "{} beyond the card on the left and on the right, and {} at the top and at the bottom: {}",
      oversize_length_words(o.x_mm, o.x_px, ppi, unit), oversize_length_words(o.y_mm, o.y_px, unit),
      total);
}

/// "95 of 100".
std::string of_hundred(double share) { return tr("{} of 100", format_number(100 * share, 1)); }

/// What the promise is about: the day, the length of the run, misfeeds, even scatter.
std::string scope_words(const HoldsFor& scope) {
  std::string text = tr("It holds for jobs of up to {} sheets in one go, fed like the test sheets.",
                        scope.run_sheets);
  text +=
      " " + (scope.misfeeds == 0
                 ? tr("Misfeeds are not counted: none of {} sheets was one, but up to {} may be.",
                      scope.sheets, of_hundred(std::round(100 * scope.misfeed_share_high) / 100))
                 : trn("Misfeeds are not counted: {} of {} sheets was one, but up to {} may be.",
                       "Misfeeds are not counted: {} of {} sheets were, but up to {} may be.",
                       scope.misfeeds, scope.sheets,
                       of_hundred(std::round(100 * scope.misfeed_share_high) / 100)));
  if (!scope.even_scatter_seen) {
    text += " " + tr("It assumes even scatter: {} sheets are too few to show drift, two landing "
                     "places or rare large errors reliably.",
                     scope.sheets - scope.misfeeds);
  }
  return text;
}

/// What the promise comes to for the backs that were asked for.
double promised_share(const Advice& advice) {
  const AdviceRequest& r = advice.request;
  return advice.shared_cuts && r.back_edge == EdgeKind::picture && r.count == CountBy::card
             ? std::min(r.coverage, std::floor(100 * advice.shared_cuts->sure_share) / 100)
             : r.coverage;
}

/// The first sentence of the promise, with the day in it.
std::string promise_words(const Advice& advice, const PrinterProfile& profile) {
  const AdviceRequest& r = advice.request;
  const std::string what = r.count == CountBy::card
                               ? tr("At least {} cards", of_hundred(promised_share(advice)))
                               : tr("All cards of at least {} sheets", of_hundred(r.coverage));
  const std::string sure =
      profile.passes ? tr("{} sure, from {} sheets fed {} times", percent(r.confidence),
                          profile.passes->sheets, format_number(profile.passes->passes, 1))
                     : tr("{} sure, from {} sheets", percent(r.confidence), profile.n_feeds);
  if (advice.holds_for.another_day) {
    return tr("{} printed on any day like the {} that were measured should show no sliver ({}).",
              what, advice.holds_for.sessions, sure);
  }
  return tr(
      "{} printed the same way as on that day should show no sliver ({}; another day was not "
      "tested).",
      what, sure);
}

std::string uncertainty_words(const Advice& advice, bool rotation_measured,
                              const DisplayUnit& unit) {
  const ShiftUncertainty& u = advice.shift_uncertainty;
  if (!rotation_measured) {
    return tr(
        "The constant part is known to +-{} left-right and +-{} up-down ({} confidence each), its "
        "rotation was not measured; the oversize covers what is not known.",
        distance_words(u.dx_mm, unit), distance_words(u.dy_mm, unit),
        percent(advice.request.confidence));
  }
  return tr(
      "The constant part is known to +-{} left-right, +-{} up-down and +-{} in rotation ({} "
      "confidence each); the oversize covers what is not known.",
      distance_words(u.dx_mm, unit), distance_words(u.dy_mm, unit), angle_words(u.rotation_mrad),
      percent(advice.request.confidence));
}

std::string yield_words(const ExpectedGood& e) {
  return tr(
      "Expected without a sliver: {} of the {} cards of a sheet, on average (90 % credible: {} to "
      "{}); {} % of the sheets have no bad card.",
      format_fixed(e.cards_per_sheet, 2), e.cells, format_fixed(e.low, 2), format_fixed(e.high, 2),
      format_fixed(e.whole_sheets_percent, 1));
}

/// "0.81 mm (10 px)", or both axes where they differ.
std::string short_oversize_words(const Oversize& o, const DisplayUnit& unit) {
  if (o.x_px == o.y_px && std::abs(o.x_mm - o.y_mm) < 1e-9) {
    return oversize_length_words(o.x_mm, o.x_px, unit);
  }
  return tr("{} left and right, {} at top and bottom", oversize_length_words(o.x_mm, o.x_px, unit),
            oversize_length_words(o.y_mm, o.y_px, unit));
}

std::string job_words(const Advice& advice) {
  if (!advice.request.cards || !advice.sheets_to_print) return "";
  std::string text =
      tr("{} cards are {} sheets. Print {} if a sheet with one bad card is printed "
         "again as a whole",
         *advice.request.cards, advice.sheets_needed, *advice.sheets_to_print);
  if (advice.sheets_for_cards) {
    text += tr(", {} if only the bad cards are", *advice.sheets_for_cards);
  }
  return text + tr(": enough good ones with {} probability.", percent(advice.sheets_assurance));
}

/// How sure the direction of the shift is, where that is worth a word.
std::string direction_words(const Advice& advice, const PrinterProfile& profile,
                            const DisplayUnit& unit) {
  if (!advice.unmoved) return "";
  return tr(
      "The back landed {}. That may be chance ({} sure of the direction); if moved anyway, it "
      "needs {} instead of {}.",
      landing_words(profile.mean, unit), percent(std::floor(100 * advice.direction_sure) / 100),
      short_oversize_words(advice.oversize, unit), short_oversize_words(*advice.unmoved, unit));
}

std::string another_day_words(const Advice& advice, const DisplayUnit& unit) {
  if (!advice.another_day) return "";
  return tr(
      "For another day, print 2 or 3 fresh target sheets first (--recentre). Without them, "
      "allow {}: this assumes that days differ as much as sheets do.",
      short_oversize_words(*advice.another_day, unit));
}

/// What whole pixels without turning cost.
std::string editor_note(const Advice& advice, const DisplayUnit& unit) {
  if (!advice.editor) return "";
  const Oversize& oversize = advice.editor->oversize;
  const double cost =
      std::max(oversize.x_mm - advice.oversize.x_mm, oversize.y_mm - advice.oversize.y_mm);
  if (cost < 0.005) return "";
  return tr("Whole pixels without rotation cost {} of oversize, which is included.",
            distance_words(cost, unit));
}

/// A line to type over.
std::string editor_words(const Advice& advice, const DisplayUnit& unit) {
  if (!advice.editor) return "";
  const EditorSettings& e = *advice.editor;
  std::vector<std::string> moves;
  if (e.right_px != 0) {
    moves.push_back(
        tr("{} px {}", std::abs(e.right_px), e.right_px > 0 ? tr("right") : tr("left")));
  }
  if (e.down_px != 0) {
    moves.push_back(tr("{} px {}", std::abs(e.down_px), e.down_px > 0 ? tr("down") : tr("up")));
  }
  const std::string note = editor_note(advice, unit);
  const std::string text =
      moves.empty()
          ? tr("In an image editor at {} ppi: canvas {} x {} px, back not moved.",
               format_number(advice.request.ppi, 1), e.canvas_width_px, e.canvas_height_px)
          : tr("In an image editor at {} ppi: canvas {} x {} px, back moved {}, seen from the "
               "back.",
               format_number(advice.request.ppi, 1), e.canvas_width_px, e.canvas_height_px,
               fmt::format("{}", fmt::join(moves, tr(" and "))));
  return note.empty() ? text : text + " " + note;
}

/// What becomes of the promise where backs end before the oversize does, or show no sliver at all.
std::string edges_words(const Advice& advice, const DisplayUnit& unit) {
  if (advice.request.back_edge == EdgeKind::white) {
    return tr(
        "Print a back with a white edge at its original size: it shows no sliver, enlarged or not. "
        "Add --border to see how even its border will be.");
  }
  if (!advice.shared_cuts) return "";
  const SharedCuts& cuts = *advice.shared_cuts;
  const std::string ends = cuts.reach_mm > 0 ? tr("in the middle of the gutter, {} beyond the cut",
                                                  distance_words(cuts.reach_mm, unit))
                                             : std::string(tr("at the cut"));
  const std::string gutter = distance_words(cuts.gutter_needed_mm, unit);
  const std::string cards =
      tr("{} of {}", format_fixed(cuts.good.cards_per_sheet, 1), cuts.good.cells);
  if (advice.request.back_edge) {
    return tr(
        "Between the cards these backs end {}: where a sheet is off, the neighbour's back shows "
        "there. On average {} cards of a sheet are clean. Leave a gutter of {} (--gutter), and the "
        "promise is for {} cards.",
        ends, cards, gutter, of_hundred(advice.request.coverage));
  }
  return tr(
      "This is for backs whose edge continues beyond the cut: one colour, or a pattern. A back "
      "that is a picture ends {} between the cards, and only {} cards of a sheet are clean on "
      "average. A gutter of {} (--gutter) keeps the promise for it too.",
      ends, cards, gutter);
}

double lost(const ExpectedGood& good) { return good.cells - good.cards_per_sheet; }

std::string way_words(const PrintingWay& way, const DisplayUnit& unit) {
  const std::string needs = short_oversize_words(way.oversize, unit);
  const std::string loses = format_fixed(lost(way.good), 2);
  switch (way.way) {
    case WayToPrint::as_printed:
      return tr("  not moved: {}, {} cards lost", needs, loses);
    case WayToPrint::moved:
      return tr("  moved: {}, {} cards lost", needs, loses);
    case WayToPrint::fitted:
      return tr("  moved, and fitted to scanned fronts: {}, {} cards lost", needs, loses);
  }
  return "";
}

/// The ways to print side by side, and whether the third is worth its scans.
std::string ways_words(const Advice& advice, const DisplayUnit& unit) {
  if (advice.ways.empty()) return "";
  std::string text = tr("Oversize needed by each way to print, and cards lost per sheet at {}:",
                        short_oversize_words(advice.oversize, unit));
  for (const PrintingWay& way : advice.ways) text += "\n" + way_words(way, unit);
  const PrintingWay& last = advice.ways.back();
  if (last.way != WayToPrint::fitted) return text;
  constexpr double kWorthIt = 0.95;
  const double ratio = std::max(last.oversize.x_mm, last.oversize.y_mm) /
                       std::max(advice.oversize.x_mm, advice.oversize.y_mm);
  text += ratio < kWorthIt ? tr("\nFitting needs a scan of every front before its back is printed "
                                "(measure --fronts, impose --fitted-to).")
                           : tr("\nFitting does not help on this printer: the place of a front "
                                "does not predict well enough where its back will land.");
  return text;
}

std::string centring_words(const Advice& advice, const DisplayUnit& unit) {
  if (!advice.centring) return "";
  const Centring& c = *advice.centring;
  const auto shares = [](double wide) {
    return format_fixed(wide, 0) + "/" + format_fixed(100 - std::round(wide), 0);
  };
  return tr(
      "Centring of a border of {} mm: typically {}, and {} or better on {} of the cards with {} "
      "confidence; {} % of the cards are 55/45 or better, {} % 60/40, {} % 70/30. An oversize "
      "hides slivers, it does not centre; make the border wider outward instead of scaling the "
      "picture up, which would leave {} of the border visible.",
      format_number(c.border_mm, 2), shares(c.typical_percent), shares(c.worst_percent),
      percent(advice.request.coverage), percent(advice.request.confidence),
      format_fixed(c.within_55_45, 0), format_fixed(c.within_60_40, 0),
      format_fixed(c.within_70_30, 0), distance_words(c.scaled_border_mm, unit));
}

std::string savings_words(const Advice& advice, const DisplayUnit& unit) {
  if (advice.savings.empty()) return "";
  const double now = advice.oversize.x_mm;
  const double ppi = advice.request.ppi;
  const auto saved = [&](const Saving& s) { return now - s.oversize.x_mm; };
  const Saving& most = advice.savings.back();
  if (artwork_px_from_mm(saved(most), ppi) < 1 && saved(most) < 0.01 * now) {
    return tr("More target sheets would barely reduce the oversize.");
  }
  std::string text = tr("More target sheets would bring the oversize on the left and on the right");
  const char* joint = tr(" down by about ");
  for (const Saving& s : advice.savings) {
    text += tr("{}{} with {} more", joint, short_length_words(saved(s), ppi, unit), s.sheets);
    joint = tr(", by ");
  }
  return text + ".";
}

std::string other_figures_words(const Advice& advice, const DisplayUnit& unit) {
  std::vector<std::string> lines;
  if (advice.scatter_is_odd) {
    lines.push_back(
        tr("The sheets do not scatter by chance alone (see the notes), and this oversize allows "
           "for that; with even scatter {} would be enough.",
           short_oversize_words(advice.if_normal, unit)));
  } else if (advice.heavy_tails) {
    lines.push_back(
        tr("This assumes that large errors are as rare as in a normal distribution. If they are "
           "more frequent (heavy tails), the same promise needs {} beyond the card on each side.",
           short_oversize_words(*advice.heavy_tails, unit)));
  }
  if (advice.with_misfeeds) {
    lines.push_back(tr("With the misfeeds included, it would need {} beyond the card.",
                       short_oversize_words(*advice.with_misfeeds, unit)));
  }
  return fmt::format("{}", fmt::join(lines, "\n"));
}

std::string by_hand_words(const Advice& advice, const DisplayUnit& unit) {
  if (!advice.by_hand) return "";
  const HandMethod& today = *advice.by_hand;
  const auto cards = [](const ExpectedGood& good) { return format_fixed(good.cards_per_sheet, 1); };
  std::string text = tr(
      "Your backs of today, {} larger in width and in height: {} of {} cards of a sheet are clean",
      length_words(today.total_mm, advice.request.ppi, unit), cards(today.as_printed),
      today.as_printed.cells);
  if (advice.shift_advised()) text += tr(", and {} once they are moved", cards(today.moved));
  return text + tr("; as advised, {}.", cards(advice.expected_good));
}

std::string worst_cell_words(const Advice& advice) {
  if (advice.cells.size() < 2) return "";
  const auto [worst, best] = std::minmax_element(
      advice.cells.begin(), advice.cells.end(),
      [](const auto& a, const auto& b) { return a.good_percent < b.good_percent; });
  if (best->good_percent - worst->good_percent < 0.5) return "";
  return tr("The worst place is row {}, column {} of the front ({} % good).", worst->row + 1,
            worst->column + 1, format_fixed(worst->good_percent, 1));
}

/// Would be said as 0.00 mm.
bool is_nothing(double mm) { return mm < 0.005; }

/// "0.12 mm left-right (at most 0.30 mm)"; what is not seen is not said as a number.
std::string session_share_words(const ComponentShare& share, const char* direction,
                                const DisplayUnit& unit) {
  const double limit = share.session_sd_high;
  if (!is_nothing(share.session_sd)) {
    return tr("{} {} (at most {})", distance_words(share.session_sd, unit), direction,
              distance_words(limit, unit));
  }
  if (is_nothing(limit)) return tr("no variation seen {}", direction);
  return tr("no variation seen {} (at most {})", direction, distance_words(limit, unit));
}

/// Between the sessions, where there are several.
std::string session_words(const PrinterProfile& p, const DisplayUnit& unit) {
  if (p.sessions.size() < 2) return "";
  std::vector<std::string> parts;
  bool any = false;
  for (const ComponentShare& s : p.shares) {
    if (s.component != "dx_mm" && s.component != "dy_mm") continue;
    parts.push_back(
        session_share_words(s, s.component == "dx_mm" ? tr("left-right") : tr("up-down"), unit));
    any = any || !is_nothing(s.session_sd) || !is_nothing(s.session_sd_high);
  }
  if (parts.empty()) return "";
  std::string text =
      any ? tr("Variation from session to session: {} (one standard deviation; in brackets the "
               "upper 95 % limit).",
               fmt::format("{}", fmt::join(parts, ", ")))
          : tr("The sessions do not differ by more than the sheets of one session do.");
  if (p.sessions.size() < 4) {
    text += tr(" From fewer than 4 sessions this cannot be bounded usefully.");
  }
  return text;
}

}  // namespace

std::string percent_words(double share) { return format_number(100 * share, 2) + " %"; }

AdviceWords advice_words(const Advice& advice, const PrinterProfile& profile,
                         const DisplayUnit& unit) {
  AdviceWords words;
  words.action = tr("{}, and let it reach {}.", action_words(advice, profile, unit),
                    oversize_words(advice, unit));
  words.promise = promise_words(advice, profile);
  words.uncertainty = uncertainty_words(advice, profile.rotation_measured, unit);
  words.yield = yield_words(advice.expected_good);
  words.worst_cell = worst_cell_words(advice);
  words.job = job_words(advice);
  words.centring = centring_words(advice, unit);
  words.savings = savings_words(advice, unit);
  words.other_figures = other_figures_words(advice, unit);
  words.scope = scope_words(advice.holds_for);
  words.direction = direction_words(advice, profile, unit);
  words.editor = editor_words(advice, unit);
  words.editor_note = editor_note(advice, unit);
  words.ways = ways_words(advice, unit);
  words.another_day = another_day_words(advice, unit);
  words.by_hand = by_hand_words(advice, unit);
  words.edges = edges_words(advice, unit);
  return words;
}

std::string verdict_words(const Advice& advice, const PrinterProfile& profile,
                          const DisplayUnit& unit) {
  const AdviceWords words = advice_words(advice, profile, unit);
  std::string text = words.action + "\n" + words.promise + " " + words.scope;
  if (!words.edges.empty()) text += "\n" + words.edges;
  if (!words.editor.empty()) text += "\n" + words.editor;
  if (!words.another_day.empty()) text += "\n" + words.another_day;
  if (!words.direction.empty()) text += "\n" + words.direction;
  if (!words.ways.empty()) text += "\n\n" + words.ways;
  text += "\n\n" + words.uncertainty + "\n" + words.yield;
  if (!words.worst_cell.empty()) text += " " + words.worst_cell;
  for (const std::string& part :
       {words.job, words.centring, words.savings, words.other_figures, words.by_hand}) {
    if (!part.empty()) text += "\n" + part;
  }
  return text;
}

std::string short_verdict_words(const Advice& advice, const PrinterProfile& profile,
                                const DisplayUnit& unit) {
  const AdviceWords words = advice_words(advice, profile, unit);
  std::vector<std::string> lines = {words.action, words.promise,   words.edges, words.by_hand,
                                    words.editor, words.direction, words.job,   words.centring};
  // What keeps the promise where the scatter is not even, or where sheets were left out.
  if (advice.scatter_is_odd || advice.with_misfeeds) lines.push_back(words.other_figures);
  std::erase(lines, "");
  return fmt::format("{}", fmt::join(lines, "\n"));
}

std::string advice_tables_words(const Advice& advice, const DisplayUnit& unit) {
  std::string text =
      tr("Cell by cell (row and column seen from the front): cards without a sliver, and the error "
         "there that every sheet has.\n");
  for (const CellAdvice& c : advice.cells) {
    text +=
        tr("  row {}, column {}: {} %", c.row + 1, c.column + 1, format_fixed(c.good_percent, 1));
    if (c.field_mm.norm() >= 0.005) {
      text += tr(", {}, seen from the back",
                 shift_in_words(c.field_mm.x(), c.field_mm.y(), advice.request.ppi, unit));
    }
    text += "\n";
  }
  text += tr("Good cards of a sheet against oversize (90 % credible):\n");
  for (const YieldPoint& y : advice.curve) {
    if (!y.in_tables) continue;
    text += tr("  {}: {} ({} to {}) of {}\n", short_oversize_words(y.oversize, unit),
               format_fixed(y.good.cards_per_sheet, 2), format_fixed(y.good.low, 2),
               format_fixed(y.good.high, 2), y.good.cells);
  }
  text.pop_back();
  return text;
}

namespace {

/// Which pass scatters more, where passes show it.
std::string pass_share_words(const PassComponents& p) {
  const auto variance = [](const RegistrationMatrix& m) { return m(0, 0) + m(1, 1); };
  const double front = variance(p.front_covariance);
  const double back = variance(p.back_covariance);
  const double sheet = variance(p.sheet_covariance);
  const double all = front + back + sheet;
  if (!(all > 0)) return "";
  const auto share = [&](double part) { return format_fixed(100 * part / all, 0); };
  return tr(
      " Of that variance {} % comes from printing the fronts, {} % from printing the backs, "
      "{} % from sheet to sheet.",
      share(front), share(back), share(sheet));
}

}  // namespace

ProfileWords profile_words_in_parts(const PrinterProfile& p, const DisplayUnit& unit) {
  const auto sd = [&](int i) { return std::sqrt(std::max(0.0, p.spread_covariance(i, i))); };
  ProfileWords words;
  words.landing = tr(
      "On average the back landed {} ({}).", landing_words(p.mean, unit),
      p.passes ? tr("{} sheets fed {} times", p.passes->sheets, format_number(p.passes->passes, 1))
               : trn("{} sheet", "{} sheets", p.mean_feeds));
  if (p.spread_dof > 0) {
    words.spread =
        tr("From feed to feed it varies by {} left-right, {} up-down and {} in rotation (one "
           "standard deviation, {}).",
           distance_words(sd(0), unit), distance_words(sd(1), unit),
           p.rotation_measured ? angle_words(sd(2)) : std::string(tr("an amount not measured")),
           trn("{} degree of freedom", "{} degrees of freedom", p.spread_dof));
  }
  if (p.spread_dof > 0) {
    words.short_spread =
        p.rotation_measured
            ? tr("From feed to feed it varies by {} left-right, {} up-down and {} in rotation: two "
                 "of three feeds stay within that.",
                 distance_words(sd(0), unit), distance_words(sd(1), unit), angle_words(sd(2)))
            : tr("From feed to feed it varies by {} left-right and {} up-down: two of three feeds "
                 "stay within that. Rotation was not measured.",
                 distance_words(sd(0), unit), distance_words(sd(1), unit));
  }
  if (p.passes) words.spread += pass_share_words(*p.passes);
  for (const ProfileTest& test : p.tests)
    words.tests.push_back(versolay::words::say(test.conclusion, unit));
  for (const StudySentence& study : study_words(p.studies)) words.tests.push_back(study.text);
  words.sessions = session_words(p, unit);
  if (p.spread_dof > 0 && p.field.points.empty()) {
    words.field =
        tr("Distortion beyond shift, rotation and scale can only be measured with 8 holes a sheet; "
           "these sheets have fewer.");
  }
  for (const ExcludedFeed& e : p.excluded) {
    words.excluded.push_back(tr("Not counted: sheet {} of {} ({}).", e.sheet, e.source,
                                versolay::words::say(e.why, unit)));
  }
  return words;
}

std::string short_profile_words(const PrinterProfile& profile, const DisplayUnit& unit) {
  const ProfileWords words = profile_words_in_parts(profile, unit);
  std::vector<std::string> lines = {words.landing, words.short_spread, words.sessions};
  lines.insert(lines.end(), words.excluded.begin(), words.excluded.end());
  std::erase(lines, "");
  return fmt::format("{}", fmt::join(lines, "\n"));
}

std::string profile_words(const PrinterProfile& profile, const DisplayUnit& unit) {
  const ProfileWords words = profile_words_in_parts(profile, unit);
  std::vector<std::string> lines = {words.landing, words.spread};
  lines.insert(lines.end(), words.tests.begin(), words.tests.end());
  lines.push_back(words.sessions);
  lines.push_back(words.field);
  lines.insert(lines.end(), words.excluded.begin(), words.excluded.end());
  std::erase(lines, "");
  return fmt::format("{}", fmt::join(lines, "\n"));
}

}  // namespace versolay
