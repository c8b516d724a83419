#include "app/compare.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "app/words.h"
#include "core/numbers.h"
#include "core/translation.h"
#include "profile/estimate.h"
#include "profile/profile_json.h"
#include "registration/readings_json.h"
#include "registration/studies.h"

namespace versolay {
namespace {

Result<SetUp> read_set_up(const std::filesystem::path& path) {
  const Json document = read_json(path);
  const std::string file = path.string();
  const std::string schema = JsonPlace(document, file).text_or("schema", "");
  SetUp set_up;
  set_up.name = path.stem().string();
  if (schema.starts_with("versolay.profile/")) {
    set_up.profile = profile_from(document, file);
    return set_up;
  }
  if (!schema.starts_with("versolay.readings/")) {
    throw Error(file, tr("is neither a printer profile nor readings, which versolay profile and "
                         "versolay measure make"));
  }
  Readings readings = readings_from(document, file);
  const Studies studies = studies_of(readings.sheets, readings.turn, readings.paper);
  auto profile = estimate_profile({{path.filename().string(), std::move(readings)}}, {});
  if (!profile) return profile.refusal();
  set_up.profile = std::move(profile).value();
  set_up.profile.studies = studies;
  return set_up;
}

/// By their paths, where the names of the files are the same.
void tell_namesakes_apart(const std::vector<std::filesystem::path>& files,
                          std::vector<SetUp>& set_ups) {
  std::map<std::string, int> count;
  for (const SetUp& s : set_ups) ++count[s.name];
  for (std::size_t i = 0; i < set_ups.size(); ++i) {
    if (count[set_ups[i].name] > 1) set_ups[i].name = files[i].string();
  }
}

/// "+-" belongs to numbers with a unit; these are the two of a signed length, said with a side.
std::string way(int component, double value) {
  if (component == 0) return value > 0 ? tr("farther right") : tr("farther left");
  if (component == 1) return value > 0 ? tr("farther down") : tr("farther up");
  return value > 0 ? tr("more clockwise") : tr("more anticlockwise");
}

std::string amount(int component, double value) {
  return component < 2 ? distance_words(value) : angle_words(value);
}

std::string end_words(int component, double value) {
  return amount(component, value) + " " + way(component, value);
}

/// Of a place, not of a difference.
std::string landing_words(int component, double value) {
  const char* way = component == 0   ? across_words(value)
                    : component == 1 ? along_words(value)
                                     : sense_words(value);
  return amount(component, value) + " " + way;
}

std::string component_words(const Comparison& c, int k) {
  static constexpr std::array kNames = {tr_noop("Left-right"), tr_noop("Up-down"),
                                        tr_noop("Rotation")};
  const ComponentComparison& one = c.components[static_cast<std::size_t>(k)];
  const stats::Interval& d = one.difference;
  std::string text =
      one.differs ? tr("{}: {} lands {} than {} (95 % interval: {} to {}).",
                       tr(kNames[static_cast<std::size_t>(k)]), c.b, end_words(k, d.estimate), c.a,
                       end_words(k, d.low), end_words(k, d.high))
                  : tr("{}: cannot tell. {} lands anywhere from {} to {} than {}; a difference of "
                       "{} would have been found four times out of five.",
                       tr(kNames[static_cast<std::size_t>(k)]), c.b, end_words(k, d.low),
                       end_words(k, d.high), c.a, amount(k, one.detectable_difference));
  if (!one.spread_known) return tr("{} Its spread needs 4 sheets or more of each.", text);
  const stats::Interval& r = one.spread_ratio;
  text += tr(" Spread: {}{} times that of {} ({} to {}).",
             one.spread_differs ? "" : tr("cannot tell, "), format_fixed(r.estimate, 2), c.a,
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
        "Choose between {} and {} by what is handier: {} and {} sheets cannot tell them apart "
        "(that is not to say that they are the same).",
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
        tr(" The constant parts differ when left-right, up-down and rotation are looked at "
           "together; none of them shows it alone.");
  }
  return text;
}

/// The printer's part has one sense in the frame of the printer, however the sheets were fed.
std::string fed_round_words(const Comparison& c) {
  if (!c.differs) {
    return tr(
        "One of the two was fed the other way round. That they agree is a good sign: what was "
        "measured is the printer's doing, not that of the holes, the paper or the scanner.");
  }
  return tr(
      "One of the two was fed the other way round, and both are told as the printer lays them "
      "down: half of what they differ in comes from measuring (holes that lean, the scanner) or "
      "from sheets that are not square. Print as many sheets the one way as the other, and the "
      "mean is rid of it.");
}

std::string foretold_words(const ForetoldTurn& f) {
  std::string text = tr("The sheets of {} foretold for the way {} is turned: {}, {}, {}. ", f.by,
                        f.of, landing_words(0, f.foretold[0]), landing_words(1, f.foretold[1]),
                        landing_words(2, f.foretold[2]));
  if (f.agrees) {
    return text + tr("{} came out so, as far as these sheets can tell ({}): only the way of "
                     "turning differs.",
                     f.of, p_words(f.p_value));
  }
  text += tr("{} did not come out so ({}): more than the way of turning is different.", f.of,
             p_words(f.p_value));
  for (int k = 0; k < 3; ++k) {
    const stats::Interval& d = f.difference[static_cast<std::size_t>(k)];
    if (d.low <= 0.0 && d.high >= 0.0) continue;
    text += tr(" It lands {} than foretold (95 % interval: {} to {}).", end_words(k, d.estimate),
               end_words(k, d.low), end_words(k, d.high));
  }
  return text;
}

std::string chance_words(const ChanceTest& t) {
  if (t.only_chance_possible) {
    return tr(
        "Is the error of {} nothing but chance? It may be: a constant part does not show in these "
        "sheets ({}).",
        t.name, p_words(t.p_value));
  }
  const std::string p = p_words(t.p_value);
  if (t.constant_share < 0.01) {
    return tr(
        "Is the error of {} nothing but chance? No ({}), but what is constant is small beside "
        "chance: moving the back will hardly help.",
        t.name, p);
  }
  return tr(
      "Is the error of {} nothing but chance? No: {} of its mean square is constant and can be "
      "moved away ({} constant against {} by chance at the corners, {}).",
      t.name, percent_words(std::round(100 * t.constant_share) / 100),
      distance_words(t.constant_mm), distance_words(t.chance_mm), p);
}

}  // namespace

Result<CompareReport> compare_files(const CompareJob& job) {
  std::vector<SetUp> set_ups;
  for (const auto& file : job.files) {
    auto set_up = read_set_up(file);
    if (!set_up) return set_up.refusal();
    set_ups.push_back(std::move(set_up).value());
  }
  tell_namesakes_apart(job.files, set_ups);
  CompareReport report;
  for (std::size_t i = 1; i < set_ups.size(); ++i) {
    auto comparison = compare_set_ups(set_ups[0], set_ups[i], job.paired);
    if (!comparison) return comparison.refusal();
    report.comparisons.push_back(std::move(comparison).value());
  }
  for (std::size_t i = 1; i < set_ups.size(); ++i) {
    if (auto foretold = foretold_turn(set_ups[0], set_ups[i])) report.foretold.push_back(*foretold);
  }
  for (const SetUp& s : set_ups) {
    report.chance.push_back(test_chance(s));
  }
  for (std::size_t i = 1; i < set_ups.size(); ++i) {
    if (set_ups[i].profile.turn == set_ups[0].profile.turn) continue;
    report.warnings.push_back(
        {"turns_differ", tr("{} was turned about the other edge than {}: the same feeding error "
                            "shows with another sign there",
                            set_ups[i].name, set_ups[0].name)});
  }
  return report;
}

std::string compare_words(const CompareReport& report) {
  std::string text;
  for (const Comparison& c : report.comparisons) {
    if (!text.empty()) text += "\n\n";
    text += headline(c);
    for (int k = 0; k < 3; ++k) text += "\n" + component_words(c, k);
    if (c.one_fed_round) text += "\n" + fed_round_words(c);
  }
  for (const ForetoldTurn& f : report.foretold) text += "\n\n" + foretold_words(f);
  text += "\n";
  for (const ChanceTest& t : report.chance) text += "\n" + chance_words(t);
  if (report.comparisons.size() > 1) {
    text +=
        tr("\n{} comparisons were made: of twenty, one shows a difference by luck. Confirm on a "
           "fresh day.",
           report.comparisons.size());
  }
  return text;
}

}  // namespace versolay
