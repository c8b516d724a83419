#include "words/study_words.h"

#include <algorithm>

#include "core/numbers.h"
#include "words/direction_words.h"
#include "words/translation.h"

namespace versolay {
namespace {

std::string fine_mm(double mm) { return format_fixed(mm, 3) + " mm"; }

std::string directions_words(const Eigen::Vector2d& offset) {
  return tr("{} too far {} and {} too far {}", distance_words(offset.x()), across_words(offset.x()),
            distance_words(offset.y()), along_words(offset.y()));
}

/// In per cent.
std::string share_words(double share) {
  if (share < 0.0001) return tr("less than 0.01");
  return format_fixed(100 * share, share < 0.01 ? 2 : 0);
}

std::string spread_words(const GaugeReport& gauge) {
  if (!gauge.components[0].has_spread) return "";
  std::string text;
  for (std::size_t i = 0; i < 2; ++i) {
    const GaugeComponent& c = gauge.components[i];
    const char* direction = i == 0 ? tr("left-right") : tr("up-down");
    if (!c.distinguishable) {
      text +=
          tr(" The sheets' own spread {} cannot be distinguished from the measurement error; it is "
             "below {}.",
             direction, fine_mm(c.spread_sd_high));
      continue;
    }
    text +=
        tr(" Of the variance between the sheets {}, reading them accounts for {} % ({} sizes can "
           "be distinguished).",
           direction, share_words(c.share), c.distinct_categories);
  }
  return text;
}

std::string gauge_words(const GaugeReport& gauge) {
  std::string text = tr(
      "{} scanned several times. Lifting a sheet and scanning it again changes its reading by {} "
      "left-right, {} up-down and {} (one standard deviation, {} repeats).",
      trn("{} sheet was", "{} sheets were", gauge.sheets),
      fine_mm(gauge.components[0].repeatability_sd), fine_mm(gauge.components[1].repeatability_sd),
      angle_words(gauge.components[2].repeatability_sd), gauge.dof);
  text += spread_words(gauge);
  if (!gauge.enough) {
    text +=
        tr(" That is only a rough estimate: six repeats are needed, for instance three sheets "
           "scanned three times on both sides.");
  }
  return tr("{} The lean of a pin, burrs and the print itself do not show in repeats.", text);
}

std::string other_turn_words(const OtherTurn& other) {
  const std::string edge = other.turn == Turn::long_edge ? tr("long") : tr("short");
  const std::string place = directions_words(other.mean.head<2>());
  if (other.sheets == 1) {
    return tr(
        "If the sheet were turned on the {} edge instead, its back would be expected to land {}, "
        "seen from the back. One sheet does not show how far the next differs from it: read "
        "several before you choose a turn.",
        edge, place);
  }
  return tr(
      "If the sheets were turned on the {} edge instead, the backs would be expected to land {}, "
      "seen from the back (+-{} and +-{} with 95 % confidence, from where both prints of {} are on "
      "the paper).",
      edge, place, distance_words(other.half_width[0]), distance_words(other.half_width[1]),
      trn("{} sheet", "{} sheets", other.sheets));
}

std::string fed_round_words(const FedRoundCheck& check) {
  const std::string bias =
      tr("{} to the {} (+-{}) and {} {} (+-{})", fine_mm(std::abs(check.bias_mm.x())),
         across_words(check.bias_mm.x()), fine_mm(check.half_width_mm.x()),
         fine_mm(std::abs(check.bias_mm.y())), along_words(check.bias_mm.y()),
         fine_mm(check.half_width_mm.y()));
  const std::string sheets =
      tr("{} sheets were printed upright and {} rotated by 180 degrees: the error of the printer "
         "changes its sign on these, that of measuring does not.",
         check.sheets_upright, check.sheets_round);
  if (check.real) {
    return tr(
        "{} There is a measuring bias: {}. It cancels in the mean when there are as many sheets of "
        "one kind as of the other.",
        sheets, bias);
  }
  return tr("{} No measuring bias is detected: {}, with 95 % confidence.", sheets, bias);
}

}  // namespace

std::vector<StudySentence> study_words(const Studies& studies) {
  std::vector<StudySentence> sentences;
  if (const auto& gauge = studies.gauge) {
    sentences.push_back({tr_noop("repeatability of the reading"),
                         gauge->components[0].repeatability_sd, 1.0, gauge_words(*gauge)});
  }
  if (const auto& other = studies.other_turn) {
    sentences.push_back({tr_noop("the other way of turning"), other->mean.head<2>().norm(), 1.0,
                         other_turn_words(*other)});
  }
  if (const auto& check = studies.fed_round) {
    sentences.push_back({tr_noop("half of the sheets fed round (Welch t, Bonferroni)"),
                         check->bias_mm.norm(), check->p_value, fed_round_words(*check)});
  }
  return sentences;
}

}  // namespace versolay
