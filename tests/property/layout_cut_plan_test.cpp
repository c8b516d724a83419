// Follows a cut plan with a pair of virtual scissors that know nothing but the words and settings
// on the cut card, on a rectangle of paper, and looks at the pieces.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "layout/cut_plan.h"
#include "layout/grid.h"
#include "support/findings.h"

namespace versolay {
namespace {

struct Job {
  const char* name;
  const char* paper;
  CardSize card;
  double gutter_mm;
  std::optional<int> blocks;
  double stretch_x = 1.0;
  double stretch_y = 1.0;
};

void PrintTo(const Job& job, std::ostream* out) { *out << job.name; }

struct Piece {
  double low[2];  // x, y, in mm of the (stretched) sheet
  double high[2];
  int edge[2] = {0, 0};  // number of the cut that made its low side, 0: none that counts
  double size(int axis) const { return high[axis] - low[axis]; }
};

constexpr double kTinyMm = 1e-6;

/// 0: the cut separates left from right.
int axis_of_edge(const Finding& what) {
  const std::string& edge = *what.find_text("edge");
  return edge == "left" || edge == "right" ? 0 : 1;
}

class Cutter {
 public:
  Cutter(const CardGrid& grid, const CutPlan& plan, const Paper& paper) : grid_(grid), plan_(plan) {
    const double w = paper.width_mm * plan.stretch_x;
    const double h = paper.height_mm * plan.stretch_y;
    pieces_.push_back({{-w / 2, -h / 2}, {w / 2, h / 2}});
    axes_.resize(plan.cuts.size() + 1);
  }

  void follow() {
    for (const Cut& cut : plan_.cuts) {
      strokes_ = 0;
      if (plan_.halving == cut.number) {
        halve();
      } else if (cut.by == CutBy::marks) {
        by_marks(cut);
      } else {
        by_fence(cut);
      }
      EXPECT_EQ(strokes_, cut.strokes) << "cut " << cut.number << ", " << cut.what;
      total_ += strokes_;
    }
    EXPECT_EQ(total_, plan_.strokes);
  }

  const std::vector<Piece>& pieces() const { return pieces_; }

 private:
  double stretched(double mm, int axis) const {
    return mm * (axis == 0 ? plan_.stretch_x : plan_.stretch_y);
  }

  void halve() {
    const auto& a = grid_.blocks[0].centre;
    const auto& b = grid_.blocks[1].centre;
    const int axis = std::abs(a.x - b.x) > std::abs(a.y - b.y) ? 0 : 1;
    const double at = stretched(axis == 0 ? (a.x + b.x) / 2 : (a.y + b.y) / 2, axis);
    split(0, axis, at, 0);
  }

  /// The blade on the guides: every piece that holds a block loses what lies outside that edge.
  void by_marks(const Cut& cut) {
    const int axis = axis_of_edge(cut.what);
    axes_[static_cast<std::size_t>(cut.number)] = axis;
    for (const CardBlock& block : grid_.blocks) {
      const double x = stretched(block.centre.x, 0);
      const double y = stretched(block.centre.y, 1);
      for (std::size_t i = 0; i < pieces_.size(); ++i) {
        const Piece& p = pieces_[i];
        if (x < p.low[0] || x > p.high[0] || y < p.low[1] || y > p.high[1]) continue;
        const double edge = axis == 0 ? x - stretched(block.width_mm, 0) / 2
                                      : y - stretched(block.height_mm, 1) / 2;
        split(i, axis, edge, cut.number);
        break;
      }
    }
  }

  /// Every piece with that finished edge, and longer than the setting, goes under the blade.
  void by_fence(const Cut& cut) {
    const int number = *cut.against_cut;
    const int axis = axes_[static_cast<std::size_t>(number)];
    const std::size_t before = pieces_.size();
    for (std::size_t i = 0; i < before; ++i) {
      if (pieces_[i].edge[axis] != number) continue;
      if (pieces_[i].size(axis) <= cut.fence_mm + kTinyMm) continue;
      split(i, axis, pieces_[i].low[axis] + cut.fence_mm, 0);
    }
  }

  void split(std::size_t i, int axis, double at, int edge_of_far_part) {
    Piece far = pieces_[i];
    far.low[axis] = at;
    far.edge[axis] = edge_of_far_part;
    pieces_[i].high[axis] = at;
    pieces_.push_back(far);
    for (Piece* piece : {&pieces_[i], &pieces_.back()}) {
      if (!holds_a_card(*piece)) piece->edge[0] = piece->edge[1] = 0;  // waste: nobody cuts it
    }
    ++strokes_;
  }

  bool holds_a_card(const Piece& piece) const {
    return std::any_of(grid_.cells.begin(), grid_.cells.end(), [&](const Cell& cell) {
      const double x = stretched(cell.centre.x, 0);
      const double y = stretched(cell.centre.y, 1);
      return x > piece.low[0] && x < piece.high[0] && y > piece.low[1] && y < piece.high[1];
    });
  }

  const CardGrid& grid_;
  const CutPlan& plan_;
  std::vector<Piece> pieces_;
  std::vector<int> axes_;
  int strokes_ = 0;
  int total_ = 0;
};

class CutPlanTest : public testing::TestWithParam<Job> {};

TEST_P(CutPlanTest, FollowedToTheLetterGivesTheCardsAndCutsIntoNone) {
  const Job& job = GetParam();
  const Paper paper = parse_paper(job.paper);
  const Result<CardGrid> fitted =
      fit_grid({paper, job.card, std::nullopt, job.gutter_mm, 5.0, job.blocks});
  ASSERT_TRUE(fitted) << fitted.refusal();
  // A block that had to make room lies off the middle.
  const CardGrid grid = moved(fitted.value(), {0.7, -0.4});
  const CutPlan plan = plan_cuts(grid, job.stretch_x, job.stretch_y);
  Cutter cutter(grid, plan, paper);
  cutter.follow();

  const double width = grid.card.width_mm * job.stretch_x;
  const double height = grid.card.height_mm * job.stretch_y;
  std::vector<Piece> cards;
  for (const Piece& p : cutter.pieces()) {
    if (std::abs(p.size(0) - width) < kTinyMm && std::abs(p.size(1) - height) < kTinyMm) {
      cards.push_back(p);
    }
  }
  EXPECT_EQ(cards.size(), grid.cells.size());
  for (const Cell& cell : grid.cells) {
    const double x = cell.centre.x * job.stretch_x;
    const double y = cell.centre.y * job.stretch_y;
    const auto whole = std::count_if(cards.begin(), cards.end(), [&](const Piece& p) {
      return std::abs((p.low[0] + p.high[0]) / 2 - x) < kTinyMm &&
             std::abs((p.low[1] + p.high[1]) / 2 - y) < kTinyMm;
    });
    EXPECT_EQ(whole, 1) << "card of row " << cell.row << ", column " << cell.column;
  }
  // Strokes, as the trade counts them (common practice): 4 + (n - 1) for n cards of an abutted
  // block, 4 + 2 (n - 1) with gutters, and one to halve the sheet.
  const int blocks = static_cast<int>(grid.blocks.size());
  const int n = static_cast<int>(grid.cells.size()) / blocks;
  EXPECT_EQ(plan.strokes, blocks * (4 + (job.gutter_mm > 0 ? 2 : 1) * (n - 1)) + blocks - 1);
}

INSTANTIATE_TEST_SUITE_P(
    Layouts, CutPlanTest,
    testing::Values(Job{"A4", "a4", {63, 88}, 0, {}}, Job{"A4Gutter", "a4", {63, 88}, 2, {}},
                    Job{"A4Laminated", "a4", {63, 88}, 1.5, {}, 0.9982, 1.0011},
                    Job{"A4Landscape", "297x210mm", {63, 88}, 0, {}},
                    Job{"A3TwoBlocks", "a3", {63, 88}, 0, {}},
                    Job{"A3TwoBlocksGutter", "a3", {63, 88}, 2, {}},
                    Job{"A3LandscapeTwoBlocks", "420x297mm", {63, 88}, 0, {}},
                    Job{"A3OneBlock", "a3", {63, 88}, 0, 1},
                    Job{"A3OneBlockGutter", "a3", {63, 88}, 2, 1},
                    Job{"Letter", "letter", {63.5, 88.9}, 0, {}},
                    Job{"Tabloid", "tabloid", {63.5, 88.9}, 0, {}},
                    Job{"MiniGutter", "a4", {44.45, 63.5}, 3, {}},
                    Job{"SquareOnCustom", "250x200mm", {70, 70}, 4, {}},
                    Job{"OneTarot", "150x180mm", {70, 120}, 0, {}}),
    [](const auto& job) { return std::string(job.param.name); });

// Source  the sums for 9-up A4, 18-up A3 in one block and in two, common practice of the trade:
//         12 / 20, 21 / 38, 25 / 41 strokes, abutted / with gutters.
TEST(CutPlan, HasTheStrokesOfTheTradesSums) {
  const auto strokes = [](const char* paper, double gutter, std::optional<int> blocks) {
    const GridShape shape = std::string(paper) == "a4" ? GridShape{3, 3} : GridShape{3, 6};
    const CardSize card =
        std::string(paper) == "a4" || blocks == 2 ? CardSize{63, 88} : CardSize{88, 63};
    return plan_cuts(
               fit_grid({parse_paper(paper), card,
                         blocks == 2 ? std::nullopt : std::optional(shape), gutter, 5.0, blocks})
                   .value())
        .strokes;
  };
  EXPECT_EQ(strokes("a4", 0, {}), 12);
  EXPECT_EQ(strokes("a4", 1, {}), 20);
  EXPECT_EQ(strokes("a3", 0, 1), 21);
  EXPECT_EQ(strokes("a3", 1, 1), 38);
  EXPECT_EQ(strokes("a3", 0, 2), 25);
  EXPECT_EQ(strokes("a3", 1, 2), 41);
}

}  // namespace
}  // namespace versolay
