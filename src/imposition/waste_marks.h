// The marks in the waste of a job's sheets: where they go on a layout, and their drawing.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "imposition/slug.h"
#include "imposition/waste_note.h"
#include "layout/artwork_place.h"
#include "target/waste_drawing.h"
#include "versolay/layout.h"

namespace versolay {

struct WasteMarksRequest {
  Paper paper;
  Turn turn = Turn::long_edge;
  const CardGrid& grid;
  double margin_mm = 5.0;
  Reach front;              // bleed of the fronts
  Reach back;               // oversize of the backs
  Registration correction;  // what the back pages go through; a coded one
  std::string run;
  std::string words = {};  // what the rings are for; empty: nothing is said
};

/// Plans in two steps, because guides and words must know what the marks leave them:
/// first area(), then place().
class WasteMarks {
 public:
  /// @return nullopt when the waste is too narrow.
  static std::optional<WasteMarks> fit(const WasteMarksRequest& request);

  /// What is left to guides and words, on either side as one looks at it.
  PageRect area() const { return area_; }

  /// Places the marks clear of guides and words, and their caption where that leaves room. A strip
  /// for words is shortened if a tag is in it. @return false when there is no room; then no marks
  /// are printed.
  bool place(const Drawing& guides, std::optional<SlugPlace>& recto_slug,
             std::optional<SlugPlace>& verso_slug);

  /// What the marks of a page say.
  /// @param correction  of the back of this sheet; a coded one.
  ProductionPage identity_of_page(int sheet, Side side, const Registration& correction) const;
  Drawing page(int sheet, Side side, const Registration& correction) const;
  const LookThroughSize& look_through() const { return look_through_; }
  int rings() const { return static_cast<int>(plan_.rings.size()); }
  /// nullopt where the waste has no room for it.
  const std::optional<WasteNote>& note() const { return note_; }

 private:
  WasteMarks() = default;
  void place_note(std::vector<PageRect> taken);

  PageIdentity identity_;
  WasteRoom room_;
  WasteEdges edges_;
  PageRect area_;
  LookThroughSize look_through_;
  WastePlan plan_;
  std::string words_;
  std::optional<WasteNote> note_;
};

/// How far a back page is moved anywhere inside the margins, on either axis, at most.
double most_moved_mm(const Paper& paper, double margin_mm, const Registration& correction);

}  // namespace versolay
