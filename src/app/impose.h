// The command `impose`: cards on sheets, fronts and corrected backs, ready to print.
#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "app/back_edges.h"
#include "app/card_thickness.h"
#include "app/profile_match.h"
#include "app/progress.h"
#include "layout/artwork_place.h"
#include "layout/cut_plan.h"
#include "layout/grid.h"
#include "target/waste_drawing.h"
#include "versolay/profile.h"
#include "versolay/result.h"

namespace versolay {

/// Measured over printed length of a finished sheet. The cuts follow the printed cards, so their
/// settings and the size of the finished card are scaled by it.
struct LaminatedScale {
  double x = 1.0;  // across the page
  double y = 1.0;
};

struct ImposeRequest {
  std::filesystem::path fronts;  // folder, picture, PDF or list; see read_deck
  std::filesystem::path back;  // picture, PDF or folder; may be empty when the list names the backs
  std::optional<Paper> paper;  // nullopt: that of the profile, else A4
  CardSize card;
  std::optional<GridShape> grid;  // nullopt: as many cards as fit
  double gutter_mm = 0.0;
  std::optional<int> blocks;  // see GridRequest
  Margins margins;            // what the printer leaves white
  std::optional<Turn> turn;   // nullopt: that of the profile, else the long edge
  std::optional<PrinterProfile> profile;
  std::string profile_name;  // as the user names it, for slug and messages
  JobSetup setup;
  bool can_rotate = true;         // the back page may be turned ...
  bool can_scale = true;          // ... and scaled; needs can_rotate
  std::optional<Reach> oversize;  // of the backs, per side; nullopt: from the profile, else none
  double coverage = 0.95;         // for the oversize from the profile
  double confidence = 0.90;
  ArtRules front_art;
  ArtRules back_art;
  std::optional<EdgeKind> back_edge;  // nullopt: look at the picture
  bool head_to_foot = false;          // backs stand on their head when the card is turned over
  double wanted_ppi = 300.0;          // images with less are told
  bool guides = true;
  bool marks = true;      // registration marks in the waste, for measure and for the eye
  double ticks_mm = 0.0;  // step of the ticks beside the guides of the first two edges; 0: none
  std::optional<LaminatedScale> laminated;
  std::optional<Thickness> paper_thickness;
  std::optional<Thickness> pouch_thickness;  // of one film
  std::string job;                           // for slug and title; empty: the PDF's name
  std::filesystem::path pdf;
  std::filesystem::path cut_card;                // for plain paper; empty: last page of the PDF
  std::optional<std::filesystem::path> preview;  // folder for pictures of finished cards
  double corner_radius_mm = 0.0;                 // of the finished cards, in the preview
  bool replace = false;
};

/// Resolution of the images at the size of the card, over all images of one side; pages of a PDF
/// have none. 0: no images.
struct EffectivePpi {
  double lowest = 0.0;
  double highest = 0.0;
};

/// How many of the backs (every image once) have which edge.
struct EdgeCounts {
  int white = 0;
  int plain = 0;
  int pattern = 0;
  int picture = 0;
};

/// Where a card went.
struct PlacedCard {
  int sheet = 0;  // from 1
  int row = 0;    // as in Cell
  int column = 0;
  std::string name;
  std::string note;
  std::string front;
  std::string back;
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
  Reach oversize;                  // as granted by the paper; none where all edges are white
  double inner_oversize_mm = 0.0;  // between cards: half the gutter where the neighbour differs
  double back_enlargement = 1.0;   // of pictures that would not reach far enough, the most
  std::vector<Eigen::Vector2d> cards_moved_mm;  // each back by itself (verso), by cell; or empty
  EdgeCounts back_edges;
  std::vector<PlacedCard> placed;
  Eigen::Vector2d moved_mm{0.0, 0.0};
  EffectivePpi front_ppi;
  EffectivePpi back_ppi;
  CutPlan cuts;
  std::vector<std::filesystem::path> preview;  // files that were written
  std::string run;  // coded in the registration marks; empty: there are none
  LookThroughSize look_through;
  std::optional<CardThickness> thickness;
  Notices warnings;
};

/// Writes the PDF (recto, verso, recto, verso, ...) and the cut card.
/// @fails  grid_too_large, grid_not_halved, not_printable; profile_paper, profile_turn; whatever
///         the advice on the oversize fails with. Another feed, stock or quality than that of the
///         profile is a warning.
/// Throws Error on a bad request, unreadable images or a failed write.
Result<ImposeReport> impose(const ImposeRequest& request, const Progress& progress);

}  // namespace versolay
