#include <fmt/format.h>

#include <Eigen/Eigenvalues>
#include <cmath>
#include <numbers>

#include "report/figure_parts.h"
#include "report/figures.h"
#include "report/plot.h"
#include "stats/hotelling.h"
#include "words/direction_words.h"
#include "words/translation.h"

namespace versolay {
namespace {

constexpr double kShare = 0.95;
constexpr double kSmallestReachMm = 0.1;  // of the plot, so that tiny errors do not look large

/// Where the middle of the back lands when the artwork is moved by `shift`.
Registration after(const Registration& landed, const BackShift& shift) {
  const Registration artwork{shift.dx_mm,       shift.dy_mm,       shift.rotation_mrad,
                             shift.scale_x_ppm, shift.scale_y_ppm, shift.shear_mrad};
  return registration_from(landed.landed_from_page() * artwork.landed_from_page());
}

/// Outline of (p - centre)' covariance^-1 (p - centre) = radius^2.
std::vector<Eigen::Vector2d> ellipse(const Eigen::Vector2d& centre,
                                     const Eigen::Matrix2d& covariance, double radius) {
  const Eigen::SelfAdjointEigenSolver<Eigen::Matrix2d> eigen(covariance);
  const Eigen::Matrix2d root =
      eigen.eigenvectors() * eigen.eigenvalues().cwiseMax(0.0).cwiseSqrt().asDiagonal();
  constexpr int kPoints = 72;
  std::vector<Eigen::Vector2d> outline;
  for (int i = 0; i < kPoints; ++i) {
    const double angle = 2 * std::numbers::pi * i / kPoints;
    outline.push_back(centre + radius * root * Eigen::Vector2d(std::cos(angle), std::sin(angle)));
  }
  return outline;
}

/// Everything of the plot, in mm of the sheet.
struct Content {
  std::vector<Eigen::Vector2d> before, after, left_out;
  Eigen::Vector2d mean_before{0, 0}, mean_after{0, 0};
  std::vector<Eigen::Vector2d> spread_before, spread_after, mean_region;
};

Eigen::Vector2d place(const Registration& r) { return {r.dx_mm, r.dy_mm}; }

Content content_of(const PrinterProfile& profile, const std::optional<BackShift>& shift) {
  Content c;
  for (const ProfileFeed& feed : profile.feeds) {
    if (feed.left_out) {
      c.left_out.push_back(place(feed.registration));
      continue;
    }
    c.before.push_back(place(feed.registration));
    if (shift) c.after.push_back(place(after(feed.registration, *shift)));
  }
  c.mean_before = place(profile.mean);
  if (shift) c.mean_after = place(after(profile.mean, *shift));
  if (profile.spread_dof >= 2) {
    const Eigen::Matrix2d spread = profile.spread_covariance.topLeftCorner<2, 2>();
    const double radius = std::sqrt(-2 * std::log(1 - kShare));  // chi-squared, 2 degrees
    c.spread_before = ellipse(c.mean_before, spread, radius);
    if (shift) c.spread_after = ellipse(c.mean_after, spread, radius);
    const double mean_radius =
        std::sqrt(stats::hotelling_critical(2, profile.spread_dof, 1 - kShare));
    c.mean_region =
        ellipse(c.mean_before, profile.mean_covariance.topLeftCorner<2, 2>(), mean_radius);
  }
  return c;
}

/// Square, with zero and everything in it.
std::pair<Range, Range> ranges_of(const Content& c) {
  Range x{-kSmallestReachMm, kSmallestReachMm};
  Range y = x;
  for (const auto* list :
       {&c.before, &c.after, &c.left_out, &c.spread_before, &c.spread_after, &c.mean_region}) {
    for (const Eigen::Vector2d& p : *list) {
      x = x.including(p.x());
      y = y.including(p.y());
    }
  }
  const double half = 0.54 * std::max(x.size(), y.size());
  const auto about = [half](const Range& r) {
    return Range{(r.low + r.high) / 2 - half, (r.low + r.high) / 2 + half};
  };
  return {about(x), about(y)};
}

Ticks unsigned_ticks(const Range& range) {
  Ticks ticks = ticks_of(range, 5);
  ticks.signs = false;
  return ticks;
}

Polyline outline(const Plot& plot, const std::vector<Eigen::Vector2d>& points, double width_mm,
                 double dash_mm) {
  Polyline line{{}, width_mm, true, dash_mm, {}};
  for (const Eigen::Vector2d& p : points) line.points.push_back(plot.at(p.x(), p.y()));
  return line;
}

Table numbers_of(const PrinterProfile& profile, const std::optional<BackShift>& shift) {
  Table table{tr("Where the middle of each back landed, seen from the back."),
              {tr("sheet"), tr("as printed"), tr("after the correction")},
              {}};
  for (const ProfileFeed& feed : profile.feeds) {
    const auto words = [](const Registration& r) {
      return across_mm_words(r.dx_mm) + ", " + along_mm_words(r.dy_mm);
    };
    const std::string sheet = profile.sessions.size() > 1
                                  ? tr("{} of session {}", feed.sheet, feed.session + 1)
                                  : fmt::format("{}", feed.sheet);
    table.rows.push_back({sheet, words(feed.registration),
                          feed.left_out ? tr("left out")
                          : shift       ? words(after(feed.registration, *shift))
                                        : tr("not moved")});
  }
  return table;
}

template <class AddMark>
Drawing mark(const AddMark& add) {
  Drawing drawing;
  add(drawing, Point<PageMm>{0, 0});
  return drawing;
}

Drawing oval(double dash_mm) {
  Drawing drawing;
  Polyline line{{}, dash_mm > 0 ? 0.3 : kLineMm, true, dash_mm, {}};
  for (const Eigen::Vector2d& p : ellipse({0, 0}, Eigen::Vector2d(9.0, 2.2).asDiagonal(), 1.0)) {
    line.points.push_back(Point<PageMm>::from(p));
  }
  drawing.push_back(line);
  return drawing;
}

}  // namespace

Figure feed_scatter(const PrinterProfile& profile, const std::optional<BackShift>& shift) {
  const Content c = content_of(profile, shift);
  const auto [x, y] = ranges_of(c);
  const Plot plot({-29, 1, 41, 71}, x, y, true);
  Figure f;
  f.id = "feeds";
  f.title =
      shift ? tr("Each sheet, before and after the correction") : tr("Each sheet, as printed");
  f.scale = plot.scale();
  f.numbers = numbers_of(profile, shift);

  Drawing& frame = layer(f, Role::frame);
  frame = plot.axes(unsigned_ticks(x), unsigned_ticks(y),
                    tr("\u2190 left    mm, seen from the back    right \u2192"),
                    tr("\u2190 down    mm    up \u2192"));
  const PageRect& area = plot.area();
  const Point<PageMm> zero = plot.at(0, 0);
  frame.push_back(line({area.left_mm, zero.y}, {area.right_mm, zero.y}, kThinMm, 0, 0.6));
  frame.push_back(line({zero.x, area.top_mm}, {zero.x, area.bottom_mm}, kThinMm, 0, 0.6));
  for (const auto& p : c.left_out) add_cross(frame, plot.at(p.x(), p.y()));

  Drawing& before = layer(f, Role::before);
  if (!c.spread_before.empty()) before.push_back(outline(plot, c.spread_before, 0.3, 1.2));
  if (!c.mean_region.empty()) before.push_back(outline(plot, c.mean_region, kLineMm, 0));
  for (const auto& p : c.before) add_ring(before, plot.at(p.x(), p.y()));
  add_plus(before, plot.at(c.mean_before.x(), c.mean_before.y()));
  if (shift) {
    Drawing& corrected = layer(f, Role::after);
    if (!c.spread_after.empty()) corrected.push_back(outline(plot, c.spread_after, 0.3, 1.2));
    for (const auto& p : c.after) add_dot(corrected, plot.at(p.x(), p.y()));
  }

  std::vector<LegendEntry> legend;
  if (!c.before.empty())
    legend.push_back({Role::before, mark(add_ring), tr("a sheet, as printed")});
  if (!c.after.empty()) {
    legend.push_back({Role::after, mark(add_dot), tr("the same sheet, back moved as advised")});
  }
  if (!c.left_out.empty()) {
    Drawing cross;
    add_cross(cross, {0, 0});
    legend.push_back({Role::frame, cross, tr("a sheet that was left out")});
  }
  if (!c.spread_before.empty()) {
    legend.push_back({Role::before, oval(1.2), tr("about 95 % of sheets land in here")});
    legend.push_back({Role::before, oval(0), tr("mean (+) with its 95 % confidence region")});
    if (shift) legend.push_back({Role::after, oval(1.2), tr("sheets after the correction (95 %)")});
  }
  const double bottom = add_legend(f, 82.5, legend);

  f.alt =
      tr("A square plot of {} sheets. As printed, the backs landed around a point {} and {} of "
         "their fronts{}.",
         c.before.size(), across_mm_words(profile.mean.dx_mm), along_mm_words(profile.mean.dy_mm),
         shift ? tr("; after the correction they land around a point {} and {}",
                    across_mm_words(c.mean_after.x()), along_mm_words(c.mean_after.y()))
               : std::string());
  f.caption =
      tr("Where the two thin lines cross, back and front are in exact register. Moving the back "
         "brings the cloud there; it cannot make the cloud narrower.");
  return finished(std::move(f), bottom);
}

}  // namespace versolay
