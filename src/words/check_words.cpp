#include "words/check_words.h"

#include <fmt/format.h>

#include <array>
#include <string>
#include <vector>

#include "core/numbers.h"
#include "words/direction_words.h"
#include "words/translation.h"

namespace versolay {
namespace {

std::string action_words(const Check& c) {
  switch (c.verdict) {
    case CheckVerdict::pool:
      return tr("Keep using the profile, and add these sheets to it: they show no change.");
    case CheckVerdict::recentre:
      return tr(
          "Move the backs again: the constant part has changed. Add these sheets to the profile; "
          "it then takes its mean from the newest session and its spread from all.");
    case CheckVerdict::start_again:
      return tr(
          "Start a new profile: the spread is no longer what it was when the profile was made. "
          "Find out what changed: printer, tray, paper, quality.");
  }
  return "";
}

std::string how_sure_words(const Check& c, const PrinterProfile& profile) {
  if (c.n_new == 1) {
    return c.charted ? tr("One sheet was checked: its distance (T2) is {}, the limit {} (0.5 % "
                          "false alarms); one sheet shows no spread.",
                          format_number(c.feeds[0].t2, 1), format_number(c.t2_limit, 1))
                     : tr("One sheet cannot show a change against so few sheets of the profile.");
  }
  std::string text =
      tr("{} new sheets were checked, at 5 % false alarms for all questions together.", c.n_new);
  if (profile.feeds.empty()) {
    text +=
        tr(" The profile does not contain its individual sheets, so the spread was not compared.");
  } else if (!c.spread_known) {
    text += tr(" Measuring a change of the spread takes 4 new sheets or more.");
  }
  return text;
}

/// "0.08 mm left and 0.15 mm down".
std::string offset_words(const Check& c, const DisplayUnit& unit) {
  const double right = c.moved[0].estimate;
  const double down = c.moved[1].estimate;
  return tr("{} {} and {} {}", distance_words(right, unit), across_words(right),
            distance_words(down, unit), along_words(down));
}

std::string moved_words(const Check& c, const DisplayUnit& unit) {
  static constexpr std::array<std::array<const char*, 2>, 2> kWays = {
      {{tr_noop("left"), tr_noop("right")}, {tr_noop("up"), tr_noop("down")}}};
  std::string text;
  for (std::size_t k = 0; k < 2; ++k) {
    const stats::Interval& m = c.moved[k];
    const auto side = [&](double value) {
      return distance_words(value, unit) + " " + tr(kWays[k][value > 0 ? 1 : 0]);
    };
    text += tr("{}{} ({} to {})", k == 0 ? "" : "; ", side(m.estimate), side(m.low), side(m.high));
  }
  const stats::Interval& r = c.moved[2];
  return tr("Since the profile was made it has moved {}; turned {} {} (joint 95 % intervals).",
            text, angle_words(r.estimate), sense_words(r.estimate));
}

std::string left_words(const LeftAfterCorrection& left, const DisplayUnit& unit) {
  return trn(
      "{} of the sheets is from a job, printed with its backs corrected. On average these backs "
      "landed {}, read from the edges of the paper; the results below allow for the correction "
      "that each sheet names.",
      "{} of the sheets are from a job, printed with their backs corrected. On average these backs "
      "landed {}, read from the edges of the paper; the results below allow for the correction "
      "that each sheet names.",
      left.sheets, landing_words(left.mean, unit));
}

}  // namespace

std::string check_words(const Check& c, const PrinterProfile& profile,
                        const std::optional<LeftAfterCorrection>& left, const DisplayUnit& unit) {
  std::string text = action_words(c) + "\n" + how_sure_words(c, profile);
  if (left) text += "\n" + left_words(*left, unit);
  if (c.n_new >= 2) text += "\n" + moved_words(c, unit);
  if (c.spread_known) {
    text += tr(
        "\nIt now varies {} times as much left-right ({} to {}) and {} times up-down ({} to {}).",
        format_number(c.spread[0].estimate, 2), format_number(c.spread[0].low, 2),
        format_number(c.spread[0].high, 2), format_number(c.spread[1].estimate, 2),
        format_number(c.spread[1].low, 2), format_number(c.spread[1].high, 2));
  }
  for (const FeedCheck& f : c.feeds) {
    if (!f.out) continue;
    text += tr("\nSheet {} does not belong to the profile: distance (T2) {}, limit {}.", f.sheet,
               format_number(f.t2, 1), format_number(c.t2_limit, 1));
  }
  if (c.drift) {
    text += tr("\nThe readings drift in one direction (moving average beyond its limit).");
  }
  if (!c.charted) {
    text += tr("\nThe profile was made from too few sheets to judge single new sheets.");
  }
  return text;
}

std::string short_check_words(const Check& c, const PrinterProfile& profile,
                              const std::optional<LeftAfterCorrection>& left,
                              const DisplayUnit& unit) {
  std::vector<std::string> lines = {action_words(c)};
  if (left) lines.push_back(left_words(*left, unit));
  if (c.n_new >= 2) {
    lines.push_back(tr("Since the profile was made the print has moved {}, turned {} {}: {}.",
                       offset_words(c, unit), angle_words(c.moved[2].estimate),
                       sense_words(c.moved[2].estimate),
                       c.mean_moved ? tr("more than chance explains")
                                    : tr("no more than chance explains, with so few sheets")));
  }
  std::vector<std::string> out;
  for (const FeedCheck& f : c.feeds) {
    if (f.out) out.push_back(std::to_string(f.sheet));
  }
  if (!out.empty()) {
    lines.push_back(
        tr("Look at these sheets, which are farther off than the sheets of this printer are: {}.",
           fmt::format("{}", fmt::join(out, ", "))));
  }
  if (c.drift) lines.push_back(tr("The sheets drift: each is farther off than the one before."));
  if (c.n_new < 4 && !profile.feeds.empty()) {
    lines.push_back(
        tr("It takes 4 new sheets or more to see whether the print varies more than before."));
  }
  return fmt::format("{}", fmt::join(lines, "\n"));
}

}  // namespace versolay
