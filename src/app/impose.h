// The command `impose`: cards on sheets, fronts and corrected backs, ready to print.
#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "app/progress.h"
#include "layout/artwork_place.h"
#include "layout/cut_plan.h"
#include "layout/grid.h"
#include "versolay/profile.h"
#include "versolay/result.h"

namespace versolay {

struct ImposeRequest {
  std::filesystem::path fronts;  // folder, image or list; see read_deck
  std::filesystem::path back;    // image or folder; may be empty when the list names the backs
  std::optional<Paper> paper;    // nullopt: that of the profile, else A4
  CardSize card;
  std::optional<GridShape> grid;  // nullopt: as many cards as fit
  double gutter_mm = 0.0;
  std::optional<int> blocks;  // see GridRequest
  double margin_mm = 5.0;     // the printer leaves this much of every edge white
  std::optional<Turn> turn;   // nullopt: that of the profile, else the long edge
  std::optional<PrinterProfile> profile;
  std::string profile_name;       // as the user names it, for slug and messages
  std::optional<Reach> oversize;  // of the backs, per side; nullopt: from the profile, else none
  double coverage = 0.95;         // for the oversize from the profile
  double confidence = 0.90;
  double front_bleed_mm = 0.0;  // what the images have of their own beyond the card, per side
  double back_bleed_mm = 0.0;
  bool guides = true;
  std::optional<CardSize> block_after_laminating;  // measured; the fence settings are scaled by it
  std::string job;                                 // for slug and title; empty: the PDF's name
  std::filesystem::path pdf;
  std::filesystem::path cut_card;  // a file of its own: it goes on plain paper
  bool replace = false;
};

/// Resolution at which images come out, over all images of one side.
struct EffectivePpi {
  double lowest = 0.0;
  double highest = 0.0;
};

struct ImposeReport {
  Paper paper;
  Turn turn = Turn::long_edge;
  CardGrid grid;  // where the cards lie, after any remedy
  int cards = 0;
  int sheets = 0;
  int blank_cells = 0;             // on the last sheet: no front and no back
  Registration correction;         // what the back pages were moved by (R^-1 of the mean)
  Reach oversize_wanted;           // per side
  Reach oversize;                  // as granted by the paper
  double inner_oversize_mm = 0.0;  // between cards: half the gutter at most
  Eigen::Vector2d moved_mm{0.0, 0.0};
  EffectivePpi front_ppi;
  EffectivePpi back_ppi;
  CutPlan cuts;
  Notices warnings;
};

/// Writes the PDF (recto, verso, recto, verso, ...) and the cut card.
/// @fails  grid_too_large, grid_not_halved, not_printable; profile_paper, profile_turn; whatever
///         the advice on the oversize fails with.
/// Throws Error on a bad request, unreadable images or a failed write.
Result<ImposeReport> impose(const ImposeRequest& request, const Progress& progress);

}  // namespace versolay
