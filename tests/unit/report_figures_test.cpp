// The figures show what they are given. Golden numbers are those of advise; there are no golden
// pictures.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "profile/recommendation.h"
#include "report/figures.h"
#include "report/plot.h"
#include "report/what_if.h"
#include "support/profile_samples.h"

namespace versolay {
namespace {

using testing::eight_feeds;
using testing::nine_cards;
using testing::profile_of;

constexpr Effort kLittle{.populations = 200, .sheets = 200, .threads = 2};

AdviceRequest nine_card_request() {
  AdviceRequest request;
  request.grid = nine_cards();
  request.border_mm = 3.0;
  return request;
}

template <class Wanted>
std::vector<Wanted> shapes_of(const Figure& f, Role role) {
  std::vector<Wanted> found;
  for (const Layer& layer : f.layers) {
    if (layer.role != role) continue;
    for (const Shape& shape : layer.shapes) {
      if (const auto* s = std::get_if<Wanted>(&shape)) found.push_back(*s);
    }
  }
  return found;
}

void expect_within(const Figure& f) {
  constexpr double kLineMm = 0.5;
  for (const Layer& layer : f.layers) {
    for (const Shape& shape : layer.shapes) {
      if (const auto* line = std::get_if<Polyline>(&shape)) {
        for (const Point<PageMm>& p : line->points) {
          EXPECT_LE(std::abs(p.x), f.width_mm / 2 + kLineMm) << f.id;
          EXPECT_LE(std::abs(p.y), f.height_mm / 2 + kLineMm) << f.id;
        }
      }
      if (const auto* text = std::get_if<Text>(&shape)) {
        EXPECT_LE(std::abs(text->at.x), f.width_mm / 2) << f.id << ": " << text->utf8;
        EXPECT_LE(std::abs(text->at.y), f.height_mm / 2) << f.id << ": " << text->utf8;
      }
    }
  }
  EXPECT_FALSE(f.alt.empty());
  EXPECT_FALSE(f.title.empty());
}

TEST(Ticks, AreRoundAndWithin) {
  const Ticks ticks = ticks_of({-0.13, 0.42}, 5);
  ASSERT_GE(ticks.values.size(), 3U);
  EXPECT_EQ(ticks.decimals, 1);
  for (double v : ticks.values) EXPECT_NEAR(std::remainder(v, 0.2), 0.0, 1e-12);
  EXPECT_GE(ticks.values.front(), -0.13);
  EXPECT_LE(ticks.values.back(), 0.42);
}

TEST(Plot, PlacesGoBackToValues) {
  const Plot plot({-30, 5, 40, 65}, {-1, 3}, {0, 9}, false);
  const Point<PageMm> p = plot.at(0.7, 8.1);
  EXPECT_NEAR((p.x - plot.scale().x0_mm) / plot.scale().mm_per_x, 0.7, 1e-12);
  EXPECT_NEAR((p.y - plot.scale().y0_mm) / plot.scale().mm_per_y, 8.1, 1e-12);
  EXPECT_NEAR(plot.at(-1, 0).y, 65, 1e-12);  // a chart: larger is higher
  EXPECT_NEAR(plot.at(3, 9).x, 40, 1e-12);
}

TEST(FeedScatter, TheCorrectionTakesTheMeanToZero) {
  const PrinterProfile profile = profile_of(eight_feeds());
  const Advice advice = advise(profile, nine_card_request(), kLittle).value();
  const Figure f = feed_scatter(profile, advice.shift);
  EXPECT_EQ(shapes_of<CircleOutline>(f, Role::before).size(), 8U + 1U);  // and one in the legend
  Eigen::Vector2d sum(0, 0);
  const std::vector<Disc> after = shapes_of<Disc>(f, Role::after);
  ASSERT_EQ(after.size(), 8U + 1U);
  for (std::size_t i = 0; i < 8; ++i) sum += after[i].centre.vec();
  // Turning about the middle of the page and shifting do not quite commute: a micrometre.
  EXPECT_NEAR(sum.x() / 8, f.scale->x0_mm, 0.002 * f.scale->mm_per_x);
  EXPECT_NEAR(sum.y() / 8, f.scale->y0_mm, 0.002 * f.scale->mm_per_y);
  expect_within(f);
}

TEST(CardBack, IsLifeSize) {
  const PrinterProfile profile = profile_of(eight_feeds());
  const Advice advice = advise(profile, nine_card_request(), kLittle).value();
  const Figure f = card_back(advice);
  bool seen = false;
  for (const Polyline& line : shapes_of<Polyline>(f, Role::frame)) {
    if (!line.closed || line.points.size() != 4) continue;
    seen = true;
    EXPECT_NEAR(line.points[1].x - line.points[0].x, 63.0, 1e-9);
    EXPECT_NEAR(line.points[2].y - line.points[1].y, 88.0, 1e-9);
  }
  EXPECT_TRUE(seen);
  EXPECT_TRUE(f.life_size);
  expect_within(f);
}

TEST(SheetMap, HasEveryCellOnceAndTheFrontUpright) {
  const PrinterProfile profile = profile_of(eight_feeds());
  const Advice advice = advise(profile, nine_card_request(), kLittle).value();
  const Figure f = sheet_map(advice, profile.paper);
  EXPECT_EQ(f.numbers.rows.size(), 9U);
  EXPECT_EQ(f.numbers.rows[0][0], "row 1, column 1");
  const auto cards = shapes_of<Polygon>(f, Role::before);
  ASSERT_EQ(cards.size(), 9U);
  EXPECT_LT(cards[0].corners[0].x, cards[2].corners[0].x);  // column 1 is left of column 3
  EXPECT_LT(cards[0].corners[0].y, cards[8].corners[0].y);  // row 1 is above row 3
  expect_within(f);
}

TEST(DisplacementField, ArrowsGoWhereThePrintLanded) {
  PrinterProfile profile = profile_of(eight_feeds());
  profile.mean = {.dx_mm = 0.4, .dy_mm = -0.2};
  const Figure f = displacement_field(profile);
  for (const Polyline& shaft : shapes_of<Polyline>(f, Role::before)) {
    const Eigen::Vector2d along = shaft.points[1].vec() - shaft.points[0].vec();
    if (along.y() == 0) continue;  // the key
    EXPECT_GT(along.x(), 0);       // right
    EXPECT_LT(along.y(), 0);       // up
    EXPECT_NEAR(along.x() / along.y(), -2.0, 1e-9);
  }
  EXPECT_EQ(f.numbers.rows.front()[1], "0.40 mm right");
  EXPECT_EQ(f.numbers.rows.front()[2], "0.20 mm up");
  expect_within(f);
}

/// The largest closed line: the outline of the sheet.
Polyline sheet_of(const Figure& f) {
  Polyline sheet;
  double largest = 0.0;
  for (const Polyline& line : shapes_of<Polyline>(f, Role::frame)) {
    if (!line.closed) continue;
    const double width = line.points[2].x - line.points[0].x;
    if (width > largest) sheet = line;
    largest = std::max(largest, width);
  }
  return sheet;
}

TEST(DisplacementField, NoArrowLeavesTheSheet) {
  PrinterProfile profile = profile_of(eight_feeds());
  profile.field.real = true;
  profile.field.points = {{.id = "P1", .at = {98, -142}, .residual_mm = {0.05, -0.08}}};
  for (const Registration& mean :
       {Registration{.dx_mm = 0.4, .dy_mm = -0.2}, Registration{.dx_mm = 0.7, .dy_mm = -0.7},
        Registration{.dx_mm = -1.9, .rotation_mrad = 4.0}, Registration{.dy_mm = 30.0},
        Registration{.dx_mm = 0.01}}) {
    profile.mean = mean;
    const Figure f = displacement_field(profile);
    const Polyline sheet = sheet_of(f);
    const PageRect inside{sheet.points[0].x, sheet.points[0].y, sheet.points[2].x,
                          sheet.points[2].y};
    for (const Role role : {Role::before, Role::after}) {
      for (const Polyline& arrow : shapes_of<Polyline>(f, role)) {
        if (arrow.points[0].y > inside.bottom_mm) continue;  // the key, below the sheet
        for (const Point<PageMm>& p : arrow.points) {
          EXPECT_GE(p.x, inside.left_mm) << mean.dx_mm << " " << mean.dy_mm;
          EXPECT_LE(p.x, inside.right_mm) << mean.dx_mm << " " << mean.dy_mm;
          EXPECT_GE(p.y, inside.top_mm) << mean.dx_mm << " " << mean.dy_mm;
          EXPECT_LE(p.y, inside.bottom_mm) << mean.dx_mm << " " << mean.dy_mm;
        }
      }
    }
    expect_within(f);
  }
}

TEST(TurnDiagram, TheCornerComesOutWhereTheTurnTakesIt) {
  const Paper a4 = parse_paper("a4");
  const auto corner = [&](Turn turn) -> Eigen::Vector2d {
    const auto dots = shapes_of<Disc>(turn_diagram(turn, a4), Role::mark);
    return dots.at(1).centre.vec() - Eigen::Vector2d(25, dots.at(1).centre.y);
  };
  EXPECT_GT(corner(Turn::long_edge).x(), 0);   // top right of the back
  EXPECT_LT(corner(Turn::short_edge).x(), 0);  // bottom left
}

TEST(Figures, OfFewFeedsAreDrawnToo) {
  const std::vector<Registration> one(1, Registration{.dx_mm = 0.3});
  for (const PrinterProfile& profile : {profile_of(one), profile_of({{.3}, {.4, .1, .2}})}) {
    expect_within(feed_scatter(profile, std::nullopt));
    expect_within(displacement_field(profile));
    expect_within(time_trend(profile));
    if (!profile.shares.empty()) expect_within(variance_shares(profile));
  }
}

TEST(WhatIf, EveryNumberIsThatOfAdvise) {
  const PrinterProfile profile = profile_of(eight_feeds());
  const AdviceRequest request = nine_card_request();
  const WhatIfTable w = what_if(profile, request, kLittle);
  ASSERT_EQ(w.data["cases"].size(), 27U);
  for (const Json& c : w.data["cases"]) {
    AdviceRequest wish = request;
    wish.coverage = c["coverage"];
    wish.confidence = c["confidence"];
    wish.growth = c["grow"] == "equal"          ? Growth::equal
                  : c["grow"] == "proportional" ? Growth::proportional
                                                : Growth::per_axis;
    const Advice advice = advise(profile, wish, kLittle).value();
    EXPECT_EQ(c["x_mm"].get<double>(), advice.oversize.x_mm) << c;
    EXPECT_EQ(c["y_mm"].get<double>(), advice.oversize.y_mm) << c;
    if (wish.growth != Growth::equal) continue;  // the centring does not depend on the growth
    EXPECT_EQ(c["worst_off_mm"].get<double>(), advice.centring->worst_off_mm) << c;
    EXPECT_EQ(c["typical_off_mm"].get<double>(), advice.centring->typical_off_mm) << c;
  }
}

TEST(WhatIf, ResolutionsAtWhichAShiftIsNotWorthItAreAGroupOfTheirOwn) {
  // 0.11 mm: more than a pixel at 300 ppi, less than one at 150.
  std::vector<Registration> feeds = eight_feeds();
  const PrinterProfile spread = profile_of(feeds);
  for (Registration& r : feeds) {
    r = Registration{.dx_mm = 0.11 + 0.02 * (r.dx_mm - spread.mean.dx_mm),
                     .dy_mm = 0.02 * (r.dy_mm - spread.mean.dy_mm),
                     .rotation_mrad = 0.02 * (r.rotation_mrad - spread.mean.rotation_mrad)};
  }
  const WhatIfTable w = what_if(profile_of(feeds), nine_card_request(), kLittle);
  ASSERT_EQ(w.data["shifts"].size(), 2U);
  const auto group = [&](double ppi) {
    for (const Json& p : w.data["ppi"]) {
      if (p["ppi"] == ppi) return p["group"].get<std::size_t>();
    }
    return std::size_t{99};
  };
  EXPECT_FALSE(w.data["shifts"][group(150)]["advised"].get<bool>());
  EXPECT_TRUE(w.data["shifts"][group(300)]["advised"].get<bool>());
  EXPECT_EQ(w.table.rows.size(), 9U);  // of the job's resolution only
}

}  // namespace
}  // namespace versolay
