#include <fmt/format.h>

#include <array>
#include <cmath>

#include "core/numbers.h"
#include "report/figure_parts.h"
#include "report/figures.h"
#include "words/direction_words.h"
#include "words/translation.h"

namespace versolay {
namespace {

struct Named {
  const char* key;
  const char* words;
};
constexpr std::array<Named, 3> kShown = {{{"dx_mm", tr_noop("left and right")},
                                          {"dy_mm", tr_noop("up and down")},
                                          {"rotation_mrad", tr_noop("turned")}}};

struct Parts {
  double printer = 0.0;
  double session = 0.0;
  double reading = 0.0;  // shares, together 1
};

Parts parts_of(const ComponentShare& s) {
  const double printer = s.feed_sd * s.feed_sd;
  const double session = s.session_sd * s.session_sd;
  const double reading = s.measurement_sd * s.measurement_sd;
  const double all = printer + session + reading;
  return {printer / all, session / all, reading / all};
}

std::string share_words(double share) {
  const double percent = 100 * share;
  if (percent > 0 && percent < 0.1) return tr("under 0.1 %");
  if (percent < 100 && percent > 99.9) return tr("over 99.9 %");
  return format_fixed(percent, percent < 10 || percent > 90 ? 1 : 0) + " %";
}

/// One standard deviation, in the unit of the component.
std::string sd_words(const ComponentShare& s, double sd) {
  if (sd == 0) return tr("not seen");
  return s.component == "rotation_mrad" ? angle_words(sd) : distance_words(sd);
}

Drawing swatch(double ink, bool hatched) {
  Drawing drawing;
  const PageRect rect = rect_about({0, 0}, 6.0, 3.2);
  if (ink > 0) drawing.push_back(filled(rect, ink));
  if (hatched) add_hatch(drawing, rect, 1.0);
  drawing.push_back(outlined(rect, kThinMm));
  return drawing;
}

constexpr double kPrinterInk = 0.55;

}  // namespace

Figure variance_shares(const PrinterProfile& profile) {
  Figure f;
  f.id = "shares";
  f.title = tr("Where the differences between sheets come from");
  f.numbers = {tr("One standard deviation of each part, and its share of the variation."),
               {tr("direction"), tr("printer and paper"), tr("from session to session"),
                tr("reading the sheets")},
               {}};
  constexpr double kBarMm = 7.0;
  constexpr double kLeft = -kFigureWidthMm / 2 + 1;
  constexpr double kWidth = kFigureWidthMm - 2;
  double y = 0.0;
  for (const Named& named : kShown) {
    for (const ComponentShare& s : profile.shares) {
      if (s.component != named.key) continue;
      const Parts p = parts_of(s);
      layer(f, Role::frame)
          .push_back(label({kLeft, y + 4.2},
                           tr("{}: printer and paper {}", tr(named.words), share_words(p.printer)),
                           Align::left));
      y += 6.0;
      const double printer_end = kLeft + kWidth * p.printer;
      const double session_end = printer_end + kWidth * p.session;
      layer(f, Role::before).push_back(filled({kLeft, y, printer_end, y + kBarMm}, kPrinterInk));
      add_hatch(layer(f, Role::after), {printer_end, y, session_end, y + kBarMm}, 1.0);
      layer(f, Role::frame).push_back(outlined({kLeft, y, kLeft + kWidth, y + kBarMm}, kThinMm));
      y += kBarMm + 2.5;
      const auto cell = [&](double sd, double share) {
        return sd == 0 ? std::string(tr("not seen"))
                       : fmt::format("{} ({})", sd_words(s, sd), share_words(share));
      };
      f.numbers.rows.push_back({tr(named.words), cell(s.feed_sd, p.printer),
                                cell(s.session_sd, p.session), cell(s.measurement_sd, p.reading)});
    }
  }
  const double bottom = add_legend(
      f, y + 1,
      {{Role::before, swatch(kPrinterInk, false), tr("printer and paper, sheet by sheet")},
       {Role::after, swatch(0, true), tr("one session differs from the next")},
       {Role::frame, swatch(0, false), tr("reading: target, scanner, holes")}});
  f.alt =
      tr("Bars that show, for left and right, up and down and turning, how much of the variation "
         "comes from printer and paper, from the session, and from the reading of the sheets.");
  f.caption = tr(
      "Reading sheets cannot separate the printer from the paper; printing on another paper can. "
      "If the white part is large, scanning at a higher resolution makes the oversize smaller.");
  return finished(std::move(f), bottom);
}

}  // namespace versolay
