// Where the cards of a job go, how their backs are corrected, and how the sheets are cut: decided
// before anything is drawn.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "imposition/art_checks.h"
#include "imposition/deck.h"
#include "imposition/impose_request.h"
#include "layout/cut_plan.h"
#include "versolay/advice.h"
#include "versolay/result.h"

namespace versolay {

/// What the profile moves: the page as far as the user allows, and each back individually.
struct BackCorrection {
  Affine<VersoMm, VersoMm> page_from_wanted;
  std::vector<Eigen::Vector2d> cards_moved_mm;  // before page_from_wanted; by cell, or empty
};

/// How many of the backs (every image once) have which edge.
struct EdgeCounts {
  int white = 0;
  int plain = 0;
  int pattern = 0;
  int picture = 0;
};

/// The backs: how far they reach beyond the cut, and why.
struct BackReach {
  Reach wanted;                 // per side
  Reach granted;                // by the paper; none where all edges are white
  double inner_mm = 0.0;        // between cards: half the gutter where the neighbour differs
  double enlargement = 1.0;     // of pictures that would not reach far enough, the most
  std::vector<BackEdge> edges;  // by image of the deck
  EdgeCounts counts;
};

/// Where a card goes.
struct PlacedCard {
  int sheet = 0;  // from 1
  int row = 0;    // as in Cell
  int column = 0;
  std::string name;
  std::string note;
  std::string front;
  std::string back;
};

/// Backs that are fitted to fronts which are printed already.
struct FittedSheets {
  std::string run;                                           // of the fronts
  std::map<int, Affine<VersoMm, VersoMm>> page_from_wanted;  // by sheet; others as the job
  Reach reach;                                               // of the backs of these sheets
  double gain_mm = 0.0;                                      // by how much less oversize they need
};

struct SheetPlan {
  Paper paper;
  Turn turn = Turn::long_edge;
  CardGrid grid;                       // where the cards lie, after any remedy
  Eigen::Vector2d moved_mm{0.0, 0.0};  // by the remedy
  int sheets = 0;
  int blank_cells = 0;  // on the last sheet: no front and no back
  std::vector<PlacedCard> placed;
  ArtRules front_art;  // with the bleed that the artwork has of its own
  BackCorrection correction;
  BackReach back_reach;
  CutPlan cuts;
  ArtFindings artwork;
  std::optional<Advice> advice;  // on the profile, where it was needed
  std::optional<FittedSheets> fitted;
  std::optional<SharedCuts> shared_cuts;  // of the pictures that end half way to their neighbour
  Notices warnings;

  TurnAxis axis() const { return turn_axis(turn, paper); }
  Reach front_reach() const { return {front_art.bleed_mm, front_art.bleed_mm}; }
};

/// The question behind the oversize of the backs.
AdviceRequest advice_request(const ImposeRequest& request, const CardGrid& grid);

/// @fails  grid_too_large, grid_not_halved, not_printable; profile_paper, profile_turn; whatever
///         the advice on the oversize fails with. Another feed, stock or quality than that of the
///         profile is a warning.
Result<SheetPlan> plan_sheets(const ImposeRequest& request, const Deck& deck);

}  // namespace versolay
