#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "core/numbers.h"
#include "report/figure_parts.h"
#include "report/figures.h"
#include "words/direction_words.h"
#include "words/translation.h"

namespace versolay {
namespace {

constexpr int kColumns = 4;
constexpr int kRows = 5;
constexpr double kMarginMm = 22.0;  // of the sheet, without arrows

struct FieldArrow {
  Point<VersoMm> at;
  Eigen::Vector2d off_mm;
};

std::vector<FieldArrow> mean_field(const PrinterProfile& profile) {
  std::vector<FieldArrow> arrows;
  const double width = profile.paper.width_mm - 2 * kMarginMm;
  const double height = profile.paper.height_mm - 2 * kMarginMm;
  for (int row = 0; row < kRows; ++row) {
    for (int column = 0; column < kColumns; ++column) {
      const Point<VersoMm> p{width * (column / (kColumns - 1.0) - 0.5),
                             height * (row / (kRows - 1.0) - 0.5)};
      arrows.push_back({p, profile.mean.displacement_mm(p)});
    }
  }
  return arrows;
}

/// How much room an arrow has inside the sheet, as a multiple of its length.
double room_inside(const FieldArrow& arrow, const Paper& paper) {
  constexpr double kFromEdgeMm = 2.0;
  const auto along = [](double at, double off, double half) {
    if (off == 0) return std::numeric_limits<double>::max();
    return std::max(0.0, off > 0 ? half - at : half + at) / std::abs(off);
  };
  return std::min(along(arrow.at.x, arrow.off_mm.x(), paper.width_mm / 2 - kFromEdgeMm),
                  along(arrow.at.y, arrow.off_mm.y(), paper.height_mm / 2 - kFromEdgeMm));
}

/// The largest round magnification at which no arrow reaches its neighbour or leaves the sheet.
double magnification_of(const std::vector<FieldArrow>& arrows, const Paper& paper, double room_mm) {
  constexpr std::array kRound = {0.1,  0.2,  0.5,  1.0,   2.0,   3.0,   5.0,   10.0,
                                 20.0, 30.0, 50.0, 100.0, 200.0, 300.0, 500.0, 1000.0};
  double most = kRound.back();
  for (const FieldArrow& a : arrows) {
    const double length = a.off_mm.norm();
    if (length > 0) most = std::min({most, room_mm / length, room_inside(a, paper)});
  }
  double best = kRound.front();
  for (double m : kRound) {
    if (m <= most) best = m;
  }
  return best;
}

/// A round length whose arrow is about as long as the longest one.
double key_length_mm(double longest_mm) {
  const double power = std::pow(10.0, std::floor(std::log10(std::max(longest_mm, 1e-6))));
  const double lead = longest_mm / power;
  return power * (lead >= 5 ? 5 : lead >= 2 ? 2 : 1);
}

std::string place_words(const Point<VersoMm>& p) {
  return fmt::format("{} mm {}, {} mm {}", format_number(std::abs(p.x), 0), across_words(p.x),
                     format_number(std::abs(p.y), 0), along_words(p.y));
}

}  // namespace

Figure displacement_field(const PrinterProfile& profile) {
  const std::vector<FieldArrow> arrows = mean_field(profile);
  double longest = 0.0;
  for (const FieldArrow& a : arrows) longest = std::max(longest, a.off_mm.norm());
  const Paper& paper = profile.paper;
  const double scale = std::min((kFigureWidthMm - 16) / paper.width_mm, 100.0 / paper.height_mm);
  const double spacing =
      std::min((paper.width_mm - 2 * kMarginMm) / (kColumns - 1), paper.height_mm / kRows);
  std::vector<FieldArrow> all = arrows;
  if (profile.field.real) {
    for (const FieldPoint& p : profile.field.points) all.push_back({p.at, p.residual_mm});
  }
  const double magnified = magnification_of(all, paper, 0.6 * spacing);

  Figure f;
  f.id = "field";
  f.title = tr("How far the back is off across the page");
  constexpr double kTop = 5.5;
  const Point<PageMm> centre{0, kTop + scale * paper.height_mm / 2};
  Drawing& frame = layer(f, Role::frame);
  frame.push_back(label({0, 3.5}, tr("top edge of the back")));
  frame.push_back(
      outlined(rect_about(centre, scale * paper.width_mm, scale * paper.height_mm), kThinMm));
  const auto on_figure = [&](const Eigen::Vector2d& p) {
    return Point<PageMm>{centre.x + scale * p.x(), centre.y + scale * p.y()};
  };
  for (const FieldArrow& a : arrows) {
    const Point<PageMm> from = on_figure(a.at.vec());
    layer(f, Role::frame).push_back(Disc{from, 0.6, 0.0, {}});
    add_arrow(layer(f, Role::before), from, on_figure(a.at.vec() + magnified * a.off_mm));
    f.numbers.rows.push_back(
        {place_words(a.at), across_mm_words(a.off_mm.x()), along_mm_words(a.off_mm.y())});
  }
  if (profile.field.real) {
    for (const FieldPoint& p : profile.field.points) {
      const Point<PageMm> from = on_figure(p.at.vec());
      add_square(layer(f, Role::after), from, false);
      add_arrow(layer(f, Role::after), from, on_figure(p.at.vec() + magnified * p.residual_mm));
      f.numbers.rows.push_back({tr("{} (beyond shift, rotation and scale)", place_words(p.at)),
                                across_mm_words(p.residual_mm.x()),
                                along_mm_words(p.residual_mm.y())});
    }
  }
  double y = kTop + scale * paper.height_mm + 6;
  if (longest > 0) {
    const double key = key_length_mm(longest);
    const double length = scale * magnified * key;
    add_arrow(layer(f, Role::before), {-length - 2, y - 1}, {-2, y - 1});
    layer(f, Role::frame)
        .push_back(label({1, y}, tr("is {} mm", format_number(key, 4)), Align::left));
  }
  f.numbers.caption = tr(
      "How far the back landed off, on average, by the place on the back page (from its middle).");
  f.numbers.head = {tr("place"), tr("left or right"), tr("up or down")};
  f.alt =
      tr("The back of a sheet with arrows from where the print was meant to be to where it landed. "
         "The longest is {}.",
         distance_words(longest));
  f.caption =
      tr("Dot: where the print was meant to be. Tip: where it landed, on average, drawn {} times "
         "as far as it was. Seen from the back.",
         format_number(magnified, 1));
  if (profile.field.real) {
    f.caption +=
        tr(" Squares: distortion there beyond shift, rotation and scale, at the same "
           "magnification; moving the back cannot remove it, the oversize covers it.");
  }
  return finished(std::move(f), y + 2);
}

}  // namespace versolay
