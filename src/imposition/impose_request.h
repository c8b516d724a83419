// The request for a job of cards.
#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "core/fronts.h"
#include "imposition/back_edges.h"
#include "imposition/card_thickness.h"
#include "layout/artwork_place.h"
#include "layout/grid.h"
#include "profile/profile_match.h"
#include "versolay/advice.h"
#include "versolay/printer_profile.h"

namespace versolay {

/// Measured over printed length of a finished sheet. The cuts follow the printed cards, so their
/// settings and the size of the finished card are scaled by it.
struct LaminatedScale {
  double x = 1.0;  // across the page
  double y = 1.0;
};

struct ImposeRequest {
  struct Cards {
    std::filesystem::path fronts;  // folder, picture, PDF or list; see read_deck
    std::filesystem::path back;    // picture, PDF or folder; empty when the list names the backs
    CardSize size;
    ArtRules front_art;
    double wanted_ppi = kUsualPpi;  // images with less are named
  };
  struct Sheet {
    std::optional<Paper> paper;     // nullopt: that of the profile, else A4
    std::optional<Turn> turn;       // nullopt: that of the profile, else the long edge
    std::optional<GridShape> grid;  // nullopt: as many cards as fit
    std::optional<int> blocks;      // see GridRequest
    double gutter_mm = 0.0;
    Margins margins;  // what the printer leaves white
  };
  struct Backs {
    std::optional<PrinterProfile> profile;
    std::string profile_name;          // as the user names it, for slug and messages
    JobSetup setup;                    // what the job is printed with
    std::optional<Fronts> fitted_to;   // these are printed already: backs alone, one for each
    std::optional<Reach> oversize;     // per side; nullopt: from the profile, else none
    double coverage = kUsualCoverage;  // for the oversize from the profile
    double confidence = kUsualConfidence;
    bool can_rotate = true;  // the back page may be turned ...
    bool can_scale = true;   // ... and scaled; needs can_rotate
    ArtRules art;
    std::optional<EdgeKind> edge;  // nullopt: look at the picture
    bool head_to_foot = false;     // backs are upside down when the card is turned over
  };
  struct Marks {
    bool guides = true;        // cut guides on the fronts
    bool registration = true;  // marks in the waste, for measure and for the eye
    double ticks_mm = 0.0;  // step of the ticks beside the guides of the first two edges; 0: none
  };
  struct Cutting {
    std::optional<LaminatedScale> laminated;
    std::optional<Thickness> paper_thickness;
    std::optional<Thickness> pouch_thickness;  // of one film
  };
  struct Outputs {
    std::string job;  // for slug and title; empty: the name of the PDF
    std::filesystem::path pdf;
    std::filesystem::path cut_card;                // for plain paper; empty: last page of the PDF
    std::optional<std::filesystem::path> preview;  // folder for pictures of finished cards
    double corner_radius_mm = 0.0;                 // of the finished cards, in the preview
    bool replace = false;
  };

  Cards cards;
  Sheet sheet;
  Backs backs;
  Marks marks;
  Cutting cutting;
  Outputs outputs;

  std::string job() const {
    return outputs.job.empty() ? outputs.pdf.stem().string() : outputs.job;
  }
};

}  // namespace versolay
