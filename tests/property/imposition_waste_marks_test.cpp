// Laws of the marks in the waste, over papers, turns, gutters and blocks: they overlap nothing,
// both sides agree, and a reader that has only the code knows where everything is.
#include <gtest/gtest.h>

#include <cmath>

#include "imposition/waste_marks.h"
#include "layout/grid.h"
#include "layout/guides.h"
#include "layout/placement.h"
#include "pdf/fonts.h"
#include "target/geometry.h"

namespace versolay {
namespace {

struct Job {
  const char* name;
  const char* paper;
  CardSize card;
  double gutter_mm;
  std::optional<int> blocks;
  Turn turn;
};

void PrintTo(const Job& job, std::ostream* out) { *out << job.name; }

const Registration kCorrection = *coded_correction({-0.42, 0.31, -0.9, 180, -140, -0.12});
constexpr double kMarginMm = 5.0;

struct Rect {
  PageRect r;
  std::string what;
};

bool overlap(const PageRect& a, const PageRect& b) {
  return a.left_mm < b.right_mm && b.left_mm < a.right_mm && a.top_mm < b.bottom_mm &&
         b.top_mm < a.bottom_mm;
}

PageRect around(const Point<PageMm>& p, double x, double y) {
  return {p.x - x, p.y - y, p.x + x, p.y + y};
}

class WasteMarksTest : public testing::TestWithParam<Job> {
 protected:
  void SetUp() override {
    const Job& job = GetParam();
    paper_ = parse_paper(job.paper);
    grid_ =
        fit_grid({paper_, job.card, std::nullopt, job.gutter_mm, kMarginMm, job.blocks}).value();
    grid_ = moved(grid_, {0.2, -0.1});
    plan_ = plan_cuts(grid_);
    auto marks = WasteMarks::fit({paper_, job.turn, grid_, kMarginMm, front_, back_, kCorrection,
                                  "K7QX", "Rings for scanning: leave them on."});
    ASSERT_TRUE(marks);
    marks_ = std::make_unique<WasteMarks>(*marks);
    const PageRect area = marks_->area();
    recto_slug_ = slug_place(recto_extent(grid_, front_), area, 2.5);
    verso_slug_ = slug_place(verso_extent(grid_, axis(), back_), area, 0.5);
    guides_ =
        cut_guides(grid_, plan_, recto_slug_ ? without_strip(area, *recto_slug_) : area, front_);
    ASSERT_TRUE(marks_->place(guides_.drawing, recto_slug_, verso_slug_));
  }

  TurnAxis axis() const { return turn_axis(GetParam().turn, paper_); }

  /// Rectangles of what is drawn on a page: discs and rings one by one; modules of tags and codes.
  static std::vector<PageRect> inked(const Drawing& drawing) {
    std::vector<PageRect> rects;
    for (const Shape& shape : drawing) {
      if (const auto* disc = std::get_if<Disc>(&shape)) {
        rects.push_back(around(disc->centre, disc->outer_radius_mm, disc->outer_radius_mm));
      } else if (const auto* modules = std::get_if<Boxes>(&shape)) {
        rects.insert(rects.end(), modules->boxes.begin(), modules->boxes.end());
      }
    }
    return rects;
  }

  std::vector<PageRect> cards(Side side) const {
    std::vector<PageRect> rects;
    for (const Cell& cell : grid_.cells) {
      rects.push_back(side == Side::recto ? recto_place(grid_, cell, front_).ink
                                          : verso_place(grid_, cell, axis(), back_).ink);
    }
    return rects;
  }

  Paper paper_;
  CardGrid grid_;
  CutPlan plan_;
  Guides guides_;
  const Reach front_{0.0, 0.0};
  const Reach back_{0.6, 0.5};
  std::optional<SlugPlace> recto_slug_;
  std::optional<SlugPlace> verso_slug_;
  std::unique_ptr<WasteMarks> marks_;
};

TEST_P(WasteMarksTest, StandClearOfCardsWordsAndGuidesInsideWhatThePrinterCanInk) {
  for (const Side side : {Side::recto, Side::verso}) {
    const Drawing drawing = marks_->page(3, side, kCorrection);
    std::vector<PageRect> others = cards(side);
    const auto& slug = side == Side::recto ? recto_slug_ : verso_slug_;
    if (slug) others.push_back(slug->strip);
    if (side == Side::recto) {
      for (const Shape& shape : guides_.drawing) {
        if (const auto* line = std::get_if<Polyline>(&shape)) {
          const auto [left, right] = std::minmax(line->points[0].x, line->points[1].x);
          const auto [top, bottom] = std::minmax(line->points[0].y, line->points[1].y);
          others.push_back({left, top, right + 1e-9, bottom + 1e-9});
        }
      }
    }
    for (const PageRect& mark : inked(drawing)) {
      for (const PageRect& other : others) {
        EXPECT_FALSE(overlap(mark, other))
            << to_string(side) << " at " << mark.centre().x << ", " << mark.centre().y;
      }
      // The back is moved by its correction before it is printed.
      for (const Point<PageMm>& corner :
           {Point<PageMm>{mark.left_mm, mark.top_mm}, {mark.right_mm, mark.bottom_mm}}) {
        Eigen::Vector2d printed = corner.vec();
        if (side == Side::verso) {
          printed += kCorrection.displacement_mm(relabel<VersoMm>(corner));
        }
        EXPECT_LE(std::abs(printed.x()), paper_.width_mm / 2 - kMarginMm + 1e-9);
        EXPECT_LE(std::abs(printed.y()), paper_.height_mm / 2 - kMarginMm + 1e-9);
      }
    }
  }
}

TEST_P(WasteMarksTest, HaveWhiteRoundEveryRing) {
  for (const Side side : {Side::recto, Side::verso}) {
    const Drawing drawing = marks_->page(3, side, kCorrection);
    const auto rects = inked(drawing);
    for (const Shape& shape : drawing) {
      const auto* ring = std::get_if<Disc>(&shape);
      if (ring == nullptr || ring->outer_radius_mm != kWasteRing.outer_radius_mm) continue;
      const double clear = kWasteRing.outer_radius_mm + kWasteRingClearMm - 1e-9;
      int touched = 0;
      for (const PageRect& other : rects)
        touched += overlap(around(ring->centre, clear, clear), other);
      EXPECT_EQ(touched, 1);  // itself
      for (const PageRect& card : cards(side)) {
        EXPECT_FALSE(overlap(around(ring->centre, clear, clear), card));
      }
    }
  }
}

/// What a line of words takes, as it is printed.
PageRect rect_of(const Text& t) {
  const double length = text_width_mm(t.utf8, t.size_mm);
  const double up = 0.76 * t.size_mm;
  const double down = 0.24 * t.size_mm;
  return t.angle_deg == 0 ? PageRect{t.at.x, t.at.y - up, t.at.x + length, t.at.y + down}
                          : PageRect{t.at.x - down, t.at.y, t.at.x + up, t.at.y + length};
}

TEST_P(WasteMarksTest, WhatTheyAreForIsSaidClearOfAllElse) {
  for (const Side side : {Side::recto, Side::verso}) {
    const Drawing drawing = marks_->page(3, side, kCorrection);
    std::vector<PageRect> words;
    for (const Shape& shape : drawing) {
      if (const auto* text = std::get_if<Text>(&shape)) words.push_back(rect_of(*text));
    }
    ASSERT_EQ(words.size(), marks_->note() ? 1U : 0U);
    if (words.empty()) continue;
    const PageRect& note = words.front();
    EXPECT_GE(note.left_mm, -paper_.width_mm / 2 + kMarginMm);
    EXPECT_GE(note.top_mm, -paper_.height_mm / 2 + kMarginMm);
    EXPECT_LE(note.right_mm, paper_.width_mm / 2 - kMarginMm);
    EXPECT_LE(note.bottom_mm, paper_.height_mm / 2 - kMarginMm);
    for (const PageRect& card : cards(side)) EXPECT_FALSE(overlap(note.grown(0.4), card));
    const auto& slug = side == Side::recto ? recto_slug_ : verso_slug_;
    if (slug) {
      EXPECT_FALSE(overlap(note, slug->strip));
    }
    // The white that a ring needs, and some around the modules of tags and codes.
    for (const Shape& shape : drawing) {
      const auto* disc = std::get_if<Disc>(&shape);
      if (disc == nullptr) continue;
      const double clear = kWasteRing.outer_radius_mm + kWasteRingClearMm;
      EXPECT_FALSE(overlap(note, around(disc->centre, clear, clear)));
    }
    for (const PageRect& mark : inked(drawing)) EXPECT_FALSE(overlap(note.grown(0.5), mark));
    if (side == Side::verso) continue;
    for (const Shape& shape : guides_.drawing) {
      if (const auto* line = std::get_if<Polyline>(&shape)) {
        const auto [left, right] = std::minmax(line->points[0].x, line->points[1].x);
        const auto [top, bottom] = std::minmax(line->points[0].y, line->points[1].y);
        EXPECT_FALSE(overlap(note.grown(0.3), {left, top, right + 1e-9, bottom + 1e-9}));
      }
    }
  }
}

TEST(WasteNote, IsLeftOutWhereThereIsNoRoom) {
  const PageRect area{-100, -143, 100, 143};
  const std::string words = "Rings for scanning";
  EXPECT_TRUE(waste_note(words, area, {-97, -135, 97, 135}, {}));
  EXPECT_FALSE(waste_note(words, area, {-98, -141, 98, 141}, {}));
  EXPECT_FALSE(waste_note(words, area, {-97, -135, 97, 135}, {area}));
}

TEST_P(WasteMarksTest, AreWhereTheCodeSays) {
  for (const Side side : {Side::recto, Side::verso}) {
    ProductionPage page = marks_->identity_of_page(3, side, kCorrection);
    const auto read = production_page_from_digits(waste_code_digits(page));
    ASSERT_TRUE(read);
    EXPECT_EQ(*read, page);
    const TargetGeometry geometry =
        waste_geometry(read->identity.paper, read->identity.turn, read->layout);
    int rings = 0;
    for (const Shape& shape : marks_->page(3, side, kCorrection)) {
      const auto* ring = std::get_if<Disc>(&shape);
      if (ring == nullptr || ring->outer_radius_mm != kWasteRing.outer_radius_mm) continue;
      ++rings;
      const auto known =
          std::count_if(geometry.marks.begin(), geometry.marks.end(), [&](const Mark& mark) {
            return mark.kind == MarkKind::ring && mark.side == side &&
                   (mark.at.vec() - ring->centre.vec()).norm() < 1e-9;
          });
      EXPECT_EQ(known, 1);
    }
    EXPECT_EQ(rings, read->layout.rings);
    EXPECT_GE(rings, 16);
  }
}

TEST_P(WasteMarksTest, HaveTheirRingsAndDotsBackToBack) {
  const auto centres = [&](Side side, auto wanted) {
    std::vector<Eigen::Vector2d> list;
    for (const Shape& shape : marks_->page(1, side, kCorrection)) {
      const auto* disc = std::get_if<Disc>(&shape);
      if (disc != nullptr && wanted(*disc)) list.push_back(disc->centre.vec());
    }
    return list;
  };
  const auto is_ring = [](const Disc& d) {
    return d.outer_radius_mm == kWasteRing.outer_radius_mm;
  };
  const double larger = marks_->look_through().dot_radius_mm + marks_->look_through().outer_gap_mm;
  const auto is_circle = [&](const Disc& d) { return d.inner_radius_mm == larger; };
  const auto is_dot = [](const Disc& d) { return d.inner_radius_mm == 0.0; };
  const auto mirror = verso_from_recto(axis()).linear();
  const auto same = [&](const auto& recto, const auto& verso) {
    ASSERT_EQ(recto.size(), verso.size());
    ASSERT_FALSE(recto.empty());
    for (const auto& r : recto) {
      EXPECT_EQ(std::count_if(verso.begin(), verso.end(),
                              [&](const auto& v) { return (mirror * r - v).norm() < 1e-9; }),
                1);
    }
  };
  same(centres(Side::recto, is_ring), centres(Side::verso, is_ring));
  same(centres(Side::recto, is_circle), centres(Side::verso, is_dot));
}

INSTANTIATE_TEST_SUITE_P(
    Layouts, WasteMarksTest,
    testing::Values(Job{"A4", "a4", {63, 88}, 0, {}, Turn::long_edge},
                    Job{"A4Tumble", "a4", {63, 88}, 0, {}, Turn::short_edge},
                    Job{"A4Gutter", "a4", {63, 88}, 1.5, {}, Turn::long_edge},
                    Job{"A4GutterTumble", "a4", {63, 88}, 1.5, {}, Turn::short_edge},
                    Job{"A4Landscape", "297x210mm", {63, 88}, 0, {}, Turn::long_edge},
                    Job{"A3TwoBlocks", "a3", {63, 88}, 0, {}, Turn::long_edge},
                    Job{"A3TwoBlocksGutter", "a3", {63, 88}, 2, {}, Turn::short_edge},
                    Job{"A3OneBlock", "a3", {63, 88}, 0, 1, Turn::long_edge},
                    Job{"Letter", "letter", {63, 88}, 0, {}, Turn::short_edge},
                    Job{"LetterPoker", "letter", {63.5, 88.9}, 0, {}, Turn::long_edge},
                    Job{"Tabloid", "tabloid", {63, 88}, 0, {}, Turn::long_edge},
                    Job{"Custom", "230x300mm", {70, 70}, 4, {}, Turn::short_edge}),
    [](const auto& job) { return std::string(job.param.name); });

TEST(WasteMarks, AreLeftOutWhereTheWasteIsTooNarrow) {
  const Paper paper = parse_paper("a4");
  const CardGrid grid = centred_grid({63, 88}, 3, 3, 5);  // 199 x 274 mm
  EXPECT_FALSE(WasteMarks::fit({paper, Turn::long_edge, grid, 5.0, {}, {0.7, 0.7}, {}, "K7QX"}));
}

// The circles that tell a good sheet from a bad one at a lamp follow the oversize.
TEST(LookThrough, ShowsTheOversize) {
  const LookThroughSize size = look_through_size(0.7);
  EXPECT_DOUBLE_EQ(size.outer_gap_mm, 0.7);
  EXPECT_DOUBLE_EQ(size.inner_gap_mm, 0.35);
  EXPECT_GE(size.dot_radius_mm, 0.35);
  EXPECT_DOUBLE_EQ(look_through_size(0.0).outer_gap_mm, 0.5);
  EXPECT_DOUBLE_EQ(look_through_size(3.0).outer_gap_mm, 1.0);
}

}  // namespace
}  // namespace versolay
