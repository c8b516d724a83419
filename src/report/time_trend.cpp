#include <fmt/format.h>

#include <cmath>
#include <functional>
#include <numbers>

#include "report/figure_parts.h"
#include "report/figures.h"
#include "report/plot.h"
#include "words/direction_words.h"
#include "words/translation.h"

namespace versolay {
namespace {

/// One of the three panels: a component, upwards as its words say.
struct Panel {
  std::string words;
  std::function<double(const Registration&)> value;
  double smallest_reach;  // of the panel about zero
};

std::vector<Panel> panels() {
  const auto degrees = [](double mrad) { return mrad * 1e-3 * 180 / std::numbers::pi; };
  return {{tr("mm right"), [](const Registration& r) { return r.dx_mm; }, 0.1},
          {tr("mm up"), [](const Registration& r) { return -r.dy_mm; }, 0.1},
          {tr("degrees"), [=](const Registration& r) { return degrees(r.rotation_mrad); }, 0.02}};
}

Range range_of(const PrinterProfile& profile, const Panel& panel) {
  Range range{-panel.smallest_reach, panel.smallest_reach};
  for (const ProfileFeed& feed : profile.feeds) {
    range = range.including(panel.value(feed.registration));
  }
  return range.padded(0.08);
}

void draw_panel(Figure& f, const PrinterProfile& profile, const Panel& panel, const Plot& plot) {
  const PageRect& area = plot.area();
  const Range range = range_of(profile, panel);
  Drawing& frame = layer(f, Role::frame);
  for (const Shape& s : plot.axes({}, ticks_of(range, 3), "", panel.words)) frame.push_back(s);
  const double zero = plot.at(0, 0).y;
  frame.push_back(line({area.left_mm, zero}, {area.right_mm, zero}, kThinMm, 0, 0.6));
  const double mean = plot.at(0, panel.value(profile.mean)).y;
  layer(f, Role::before).push_back(line({area.left_mm, mean}, {area.right_mm, mean}, 0.3, 1.2));

  Polyline path{{}, kThinMm, false, 0.0, {}};
  int session = profile.feeds.front().session;
  for (std::size_t i = 0; i < profile.feeds.size(); ++i) {
    const ProfileFeed& feed = profile.feeds[i];
    const Point<PageMm> at = plot.at(static_cast<double>(i + 1), panel.value(feed.registration));
    if (feed.session != session) {
      layer(f, Role::before).push_back(path);
      path.points.clear();
      const double between = plot.at(static_cast<double>(i) + 0.5, 0).x;
      layer(f, Role::frame)
          .push_back(line({between, area.top_mm}, {between, area.bottom_mm}, 0.3, 0.6));
      session = feed.session;
    }
    if (!feed.left_out) {
      path.points.push_back(at);
      add_ring(layer(f, Role::before), at);
    } else {
      add_cross(layer(f, Role::frame), at);
    }
  }
  layer(f, Role::before).push_back(path);
}

}  // namespace

Figure time_trend(const PrinterProfile& profile) {
  Figure f;
  f.id = "trend";
  f.title = tr("Sheet by sheet");
  f.numbers = {tr("The sheets in their order, as printed, seen from the back."),
               {tr("sheet"), tr("left or right"), tr("up or down"), tr("turned")},
               {}};
  const auto n = static_cast<double>(profile.feeds.size());
  double y = 1.0;
  constexpr double kPanelMm = 25.0;
  for (const Panel& panel : panels()) {
    const Plot plot({-29, y, 43, y + kPanelMm}, {0.3, n + 0.7}, range_of(profile, panel), false);
    draw_panel(f, profile, panel, plot);
    y += kPanelMm + 3.0;
  }
  layer(f, Role::frame)
      .push_back(label({7, y + 1.5}, tr("sheets in the order of printing \u2192")));
  for (const ProfileFeed& feed : profile.feeds) {
    f.numbers.rows.push_back(
        {fmt::format(
             "{}{}{}", feed.sheet,
             profile.sessions.size() > 1 ? tr(" of session {}", feed.session + 1) : std::string(),
             !feed.left_out ? "" : tr(", left out")),
         across_mm_words(feed.registration.dx_mm), along_mm_words(feed.registration.dy_mm),
         turn_words(feed.registration.rotation_mrad)});
  }
  f.alt =
      tr("Three plots, one below the other, of {} sheets in their order: how far right, how far up "
         "and how far clockwise each back landed.",
         profile.feeds.size());
  f.caption =
      tr("Rings: sheets; dashed: the mean. A slope means that the printer changed while you "
         "printed: warming up, a shrinking stack, paper drying. Upwards is right, up, clockwise.");
  if (profile.sessions.size() > 1) f.caption += tr(" Dotted lines separate the sessions.");
  return finished(std::move(f), y + 3);
}

}  // namespace versolay
