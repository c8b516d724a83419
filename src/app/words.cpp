#include "app/words.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <numbers>

#include "core/numbers.h"

namespace versolay {
namespace {

std::string mm_words(double mm) { return format_fixed(std::abs(mm), 2) + " mm"; }
std::string px_words(double px) { return format_number(std::abs(px), 1) + " px"; }
/// An oversize is never rounded down.
std::string mm_words_up(double mm) {
  return format_fixed(std::ceil(mm * 100 - 1e-6) / 100, 2) + " mm";
}
std::string percent(double share) { return format_number(100 * share, 2) + " %"; }

const char* across(double dx) { return dx > 0 ? "right" : "left"; }
const char* along(double dy) { return dy > 0 ? "down" : "up"; }
const char* sense(double mrad) { return mrad > 0 ? "clockwise" : "anticlockwise"; }

/// The shift as it is to be made. Parts that would read "0.00 mm" are left out.
std::string shift_words(const Advice& advice) {
  const BackShift& s = advice.shift;
  const double ppi = advice.request.ppi;
  const bool moves_across = std::abs(s.dx_mm) >= 0.005;
  const bool moves_along = std::abs(s.dy_mm) >= 0.005;
  std::string text;
  if (moves_across) {
    text += fmt::format("{} to the {}", length_words(s.dx_mm, ppi), across(s.dx_mm));
  }
  if (moves_along) {
    if (moves_across) text += " and ";
    text += fmt::format("{} {}", length_words(s.dy_mm, ppi), along(s.dy_mm));
  }
  if (!text.empty()) text = "Move the back image " + text + ", seen from the back";
  if (std::abs(s.rotation_mrad) >= 0.005) {
    text += fmt::format("{} {} {} about the centre of the page",
                        text.empty() ? "Turn the back image" : ", turn it",
                        angle_words(s.rotation_mrad), sense(s.rotation_mrad));
    if (!moves_across && !moves_along) text += ", seen from the back";
  }
  return text.empty() ? "Leave the back image where it is" : text;
}

std::string action_words(const Advice& advice, const PrinterProfile& profile) {
  switch (advice.no_shift) {
    case NoShift::none:
      return shift_words(advice);
    case NoShift::not_real:
      return fmt::format("Leave the back image where it is: it landed {}, which can be luck",
                         landing_words(profile.mean));
    case NoShift::not_settable:
      return fmt::format(
          "Leave the back image where it is: it landed {}, less than one {}",
          landing_words(profile.mean),
          advice.request.step_mm > kMmPerInch / advice.request.ppi ? "step of the shift" : "pixel");
  }
  return "";
}

std::string oversize_words(const Advice& advice) {
  const Oversize& o = advice.oversize;
  const std::string ppi = format_number(advice.request.ppi, 0);
  const std::string total =
      advice.total_width_px == advice.total_height_px
          ? fmt::format("{} px more in width and in height in total", advice.total_width_px)
          : fmt::format("{} px more in width and {} px more in height in total",
                        advice.total_width_px, advice.total_height_px);
  if (o.x_px == o.y_px && std::abs(o.x_mm - o.y_mm) < 1e-9) {
    return fmt::format("{} ({} px at {} ppi) beyond the card on each of its four sides: {}",
                       mm_words_up(o.x_mm), o.x_px, ppi, total);
  }
  return fmt::format(
      "{} ({} px at {} ppi) beyond the card on its left and on its right, and {} ({} px) at its "
      "top and at its bottom: {}",
      mm_words_up(o.x_mm), o.x_px, ppi, mm_words_up(o.y_mm), o.y_px, total);
}

std::string promise_words(const Advice& advice, const PrinterProfile& profile) {
  const AdviceRequest& r = advice.request;
  const char* what = r.count == CountBy::card
                         ? "future cards will then show no sliver at an edge"
                         : "future sheets will then show no sliver at any edge of any card";
  return fmt::format("At least {} of {}; this holds with {} confidence, from {} feeds.",
                     percent(r.coverage), what, percent(r.confidence), profile.n_feeds);
}

std::string uncertainty_words(const Advice& advice) {
  const ShiftUncertainty& u = advice.shift_uncertainty;
  return fmt::format(
      "The constant part is known to +-{} left-right, +-{} up-down and +-{} mrad in rotation "
      "({} confidence each); the oversize covers what is not known.",
      mm_words(u.dx_mm), mm_words(u.dy_mm), format_fixed(u.rotation_mrad, 2),
      percent(advice.request.confidence));
}

std::string yield_words(const ExpectedGood& e) {
  return fmt::format(
      "Expected without a sliver: {} of the {} cards of a sheet, on average (90 % credible: {} to "
      "{}); {} % of the sheets have no bad card.",
      format_fixed(e.cards_per_sheet, 2), e.cells, format_fixed(e.low, 2), format_fixed(e.high, 2),
      format_fixed(e.whole_sheets_percent, 1));
}

std::string job_words(const Advice& advice) {
  if (!advice.request.cards || !advice.sheets_to_print) return "";
  const int spare = *advice.sheets_to_print - advice.sheets_needed;
  return fmt::format(
      "\n{} cards are {} sheets: print {}. A sheet with one bad card is lost as a whole; with {} "
      "spare there are enough good ones with {} probability.",
      *advice.request.cards, advice.sheets_needed, *advice.sheets_to_print, spare,
      percent(advice.sheets_assurance));
}

std::string centring_words(const Advice& advice) {
  if (!advice.centring) return "";
  const Centring& c = *advice.centring;
  const auto shares = [](double wide) {
    return format_fixed(wide, 0) + "/" + format_fixed(100 - std::round(wide), 0);
  };
  return fmt::format(
      "\nCentring of a border of {} mm: typically {}, and {} or better on {} of the cards with {} "
      "confidence. An oversize hides slivers, it does not centre; make the border wider outward "
      "instead of scaling the picture up, which narrows the visible border.",
      format_number(c.border_mm, 2), shares(c.typical_percent), shares(c.worst_percent),
      percent(advice.request.coverage), percent(advice.request.confidence));
}

std::string one_more_words(const Advice& advice) {
  if (!advice.with_one_more_sheet) return "";
  const double saved = advice.oversize.x_mm - advice.with_one_more_sheet->x_mm;
  return fmt::format(
      "\nFew sheets make a large oversize: one more target sheet would save about {} ({} px) on "
      "the left and on the right each.",
      mm_words(saved), format_number(artwork_px_from_mm(saved, advice.request.ppi), 1));
}

}  // namespace

std::string length_words(double mm, double ppi) {
  return fmt::format("{} ({} at {} ppi)", mm_words(mm), px_words(artwork_px_from_mm(mm, ppi)),
                     format_number(ppi, 0));
}

std::string angle_words(double mrad) {
  return fmt::format("{} mrad ({} degrees)", format_fixed(std::abs(mrad), 2),
                     format_fixed(std::abs(mrad) * 1e-3 * 180 / std::numbers::pi, 3));
}

std::string landing_words(const Registration& r) {
  std::string text = fmt::format("{} too far {} and {} too far {}", mm_words(r.dx_mm),
                                 across(r.dx_mm), mm_words(r.dy_mm), along(r.dy_mm));
  if (std::abs(r.rotation_mrad) >= 0.005) {
    text += fmt::format(", turned {} {}", angle_words(r.rotation_mrad), sense(r.rotation_mrad));
  }
  return text + ", seen from the back";
}

std::string verdict_words(const Advice& advice, const PrinterProfile& profile) {
  return fmt::format("{}, and let it reach {}.\n{}\n\n{}\n{}{}{}{}", action_words(advice, profile),
                     oversize_words(advice), promise_words(advice, profile),
                     uncertainty_words(advice), yield_words(advice.expected_good),
                     job_words(advice), centring_words(advice), one_more_words(advice));
}

std::string profile_words(const PrinterProfile& p) {
  const auto sd = [](const RegistrationMatrix& m, int i) {
    return std::sqrt(std::max(0.0, m(i, i)));
  };
  std::string text = fmt::format("On average the back landed {} ({} {}).", landing_words(p.mean),
                                 p.mean_feeds, p.mean_feeds == 1 ? "sheet" : "sheets");
  if (p.spread_dof > 0) {
    text += fmt::format(
        "\nFrom feed to feed it varies by {} left-right, {} up-down and {} mrad in rotation (one "
        "standard deviation, {} degrees of freedom).",
        mm_words(sd(p.spread_covariance, 0)), mm_words(sd(p.spread_covariance, 1)),
        format_fixed(sd(p.spread_covariance, 2), 2), p.spread_dof);
  }
  for (const ProfileTest& test : p.tests) text += "\n" + test.conclusion;
  return text;
}

}  // namespace versolay
