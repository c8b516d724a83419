#include "words/job_words.h"

#include "core/numbers.h"
#include "words/direction_words.h"
#include "words/translation.h"

namespace versolay::words {
namespace {

std::string range_words(const Thickness& t, int decimals) {
  const std::string low = format_fixed(t.low_mm, decimals);
  const std::string high = format_fixed(t.high_mm, decimals);
  return low == high ? tr("about {} mm", low) : tr("{} to {} mm", low, high);
}

}  // namespace

SlugWords slug_words(const std::string& job, Turn turn, const std::string& profile_name,
                     const std::set<int>& fitted) {
  const std::string edge = turn == Turn::long_edge ? tr("long edge") : tr("short edge");
  const std::string profile =
      profile_name.empty() ? tr("no profile") : tr("profile {}", profile_name);
  return [=](int sheet, int sheets, Side side) {
    if (side == Side::verso && fitted.contains(sheet)) {
      return tr("FOR SHEET {} ONLY  \u00b7  {}, back of sheet {} of {}  \u00b7  turn on the {}",
                sheet, job, sheet, sheets, edge);
    }
    return tr("{}  \u00b7  sheet {} of {}, {}  \u00b7  turn on the {}  \u00b7  {}", job, sheet,
              sheets, side == Side::recto ? tr("front") : tr("back"), edge, profile);
  };
}

std::string cut_card_title(const std::string& job) { return tr("Cut card: {}", job); }

std::string marks_words() {
  return tr("Rings for scanning: leave them on until the sheet is scanned.");
}

std::string band_words(const Advice& advice) {
  const Oversize& o = advice.oversize;
  const std::string reach = o.x_mm == o.y_mm
                                ? distance_words_up(o.x_mm)
                                : tr("{} left and right, {} at top and bottom",
                                     distance_words_up(o.x_mm), distance_words_up(o.y_mm));
  return tr(
      "Black line: the cut, where the back belongs. Striped band ({} to either side): on {} of "
      "100 cards the cut falls inside it.",
      reach, format_number(100 * advice.request.coverage, 1));
}

std::string thickness_words(const CardThickness& t) {
  return tr("A finished card is {} thick, {} of them {}.", range_words(t.card, 2), t.cards,
            range_words(t.deck, 1));
}

}  // namespace versolay::words
