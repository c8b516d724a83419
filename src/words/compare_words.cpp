#include "words/compare_words.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/numbers.h"
#include "words/advice_words.h"
#include "words/direction_words.h"
#include "words/translation.h"

namespace versolay {
namespace {

/// "+-" belongs to numbers with a unit; these are the two of a signed length, said with a side.
std::string way(int component, double value) {
  if (component == 0) return value > 0 ? tr("farther right") : tr("farther left");
  if (component == 1) return value > 0 ? tr("farther down") : tr("farther up");
  return value > 0 ? tr("more clockwise") : tr("more anticlockwise");
}

std::string amount(int component, double value, const DisplayUnit& unit) {
  return component < 2 ? distance_words(value, unit) : angle_words(value);
}

std::string end_words(int component, double value, const DisplayUnit& unit) {
  return amount(component, value, unit) + " " + way(component, value);
}

/// Of a place, not of a difference.
std::string landing_words(int component, double value, const DisplayUnit& unit) {
  const char* way = component == 0   ? across_words(value)
                    : component == 1 ? along_words(value)
                                     : sense_words(value);
  return amount(component, value, unit) + " " + way;
}

std::string component_words(const Comparison& c, int k, const DisplayUnit& unit) {
  static constexpr std::array kNames = {tr_noop("Left-right"), tr_noop("Up-down"),
                                        tr_noop("Rotation")};
  const ComponentComparison& one = c.components[static_cast<std::size_t>(k)];
  const stats::Interval& d = one.difference;
  std::string text =
      one.differs ? tr("{}: {} lands {} than {} (95 % interval: {} to {}).",
                       tr(kNames[static_cast<std::size_t>(k)]), c.b, end_words(k, d.estimate, unit),
                       c.a, end_words(k, d.low, unit), end_words(k, d.high, unit))
                  : tr("{}: inconclusive. {} lands anywhere from {} to {} than {}; a difference of "
                       "{} would have been found four times out of five.",
                       tr(kNames[static_cast<std::size_t>(k)]), c.b, end_words(k, d.low, unit),
                       end_words(k, d.high, unit), c.a, amount(k, one.detectable_difference, unit));
  if (!one.spread_known) return tr("{} Comparing the spread takes 4 sheets or more of each.", text);
  const stats::Interval& r = one.spread_ratio;
  text += tr(" Spread: {}{} times that of {} ({} to {}).",
             one.spread_differs ? "" : tr("inconclusive, "), format_fixed(r.estimate, 2), c.a,
             format_fixed(r.low, 2), format_fixed(r.high, 2));
  return text;
}

std::string p_words(double p) {
  return p < 0.001 ? tr("p under 0.001") : "p = " + format_number(p, 3);
}

/// The set-up that varies less; empty where the components do not agree on it.
std::string steadier(const Comparison& c) {
  bool a = false;
  bool b = false;
  for (const ComponentComparison& one : c.components) {
    if (!one.spread_differs) continue;
    (one.spread_ratio.estimate > 1 ? a : b) = true;
  }
  return a == b ? "" : a ? c.a : c.b;
}

std::string headline(const Comparison& c) {
  bool spread = false;
  for (const ComponentComparison& one : c.components) spread = spread || one.spread_differs;
  if (!c.differs && !spread) {
    return tr(
        "Use whichever of {} and {} is more convenient: {} and {} sheets show no difference (which "
        "does not prove that there is none).",
        c.a, c.b, c.n_a, c.n_b);
  }
  const std::string better = steadier(c);
  std::string text = better.empty()
                         ? std::string(tr("Keep a profile of each: "))
                         : tr("Print with {}, which varies less from feed to feed: ", better);
  text += tr("{} and {} differ in {}", c.a, c.b,
             c.differs && spread ? tr("the constant part and in the spread")
             : c.differs         ? tr("the constant part")
                                 : tr("the spread"));
  text += tr(" ({} for the constant part, {} and {} sheets{}).", p_words(c.p_value), c.n_a, c.n_b,
             c.paired ? tr(", in pairs") : "");
  const bool alone = std::any_of(c.components.begin(), c.components.end(),
                                 [](const auto& one) { return one.differs; });
  if (c.differs && !alone) {
    text +=
        tr(" The constant parts differ when left-right, up-down and rotation are considered "
           "together; none of them shows it alone.");
  }
  return text;
}

/// The printer's part has one sense in the frame of the printer, however the sheets were fed.
std::string fed_round_words(const Comparison& c) {
  if (!c.differs) {
    return tr(
        "One of the two was fed the other way round. Their agreement is a good sign: the measured "
        "error comes from the printer, not from the holes, the paper or the scanner.");
  }
  return tr(
      "One of the two was fed the other way round, and both are stated as the printer lays them "
      "down: half of their difference comes from measuring (leaning holes, the scanner) or from "
      "sheets that are not square. Print as many sheets one way as the other, and it cancels in "
      "the mean.");
}

std::string foretold_words(const ForetoldTurn& f, const DisplayUnit& unit) {
  std::string text =
      tr("The sheets of {} predict for the turn of {}: {}, {}, {}. ", f.by, f.of,
         landing_words(0, f.foretold[0], unit), landing_words(1, f.foretold[1], unit),
         landing_words(2, f.foretold[2], unit));
  if (f.agrees) {
    return text + tr("{} agrees, as far as these sheets can show ({}): only the turn differs.",
                     f.of, p_words(f.p_value));
  }
  text += tr("{} does not agree ({}): more than the turn differs.", f.of, p_words(f.p_value));
  for (int k = 0; k < 3; ++k) {
    const stats::Interval& d = f.difference[static_cast<std::size_t>(k)];
    if (d.low <= 0.0 && d.high >= 0.0) continue;
    text +=
        tr(" It lands {} than predicted (95 % interval: {} to {}).", end_words(k, d.estimate, unit),
           end_words(k, d.low, unit), end_words(k, d.high, unit));
  }
  return text;
}

std::string chance_words(const ChanceTest& t, const DisplayUnit& unit) {
  if (t.only_chance_possible) {
    return tr(
        "Is the error of {} nothing but chance? It may be: these sheets show no constant part "
        "({}).",
        t.name, p_words(t.p_value));
  }
  const std::string p = p_words(t.p_value);
  if (t.constant_share < 0.01) {
    return tr(
        "Is the error of {} nothing but chance? No ({}), but the constant part is small compared "
        "with chance: moving the back will help little.",
        t.name, p);
  }
  return tr(
      "Is the error of {} nothing but chance? No: {} of its mean square is constant and can be "
      "moved away ({} constant against {} by chance at the corners, {}).",
      t.name, percent_words(std::round(100 * t.constant_share) / 100),
      distance_words(t.constant_mm, unit), distance_words(t.chance_mm, unit), p);
}

}  // namespace

std::string compare_words(const std::vector<Comparison>& comparisons,
                          const std::vector<ForetoldTurn>& foretold,
                          const std::vector<ChanceTest>& chance, const DisplayUnit& unit) {
  std::string text;
  for (const Comparison& c : comparisons) {
    if (!text.empty()) text += "\n\n";
    text += headline(c);
    for (int k = 0; k < 3; ++k) text += "\n" + component_words(c, k, unit);
    if (c.one_fed_round) text += "\n" + fed_round_words(c);
  }
  for (const ForetoldTurn& f : foretold) text += "\n\n" + foretold_words(f, unit);
  text += "\n";
  for (const ChanceTest& t : chance) text += "\n" + chance_words(t, unit);
  if (comparisons.size() > 1) {
    text +=
        tr("\n{} comparisons were made: of twenty, one shows a difference by chance. Confirm on a "
           "fresh day.",
           comparisons.size());
  }
  return text;
}

}  // namespace versolay
