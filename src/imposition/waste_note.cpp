#include "imposition/waste_note.h"

#include <algorithm>
#include <cmath>

#include "pdf/fonts.h"

namespace versolay {
namespace {

constexpr double kLargestNoteMm = 2.2;
constexpr double kSmallestNoteMm = 1.6;
constexpr double kNoteStepMm = 0.1;
constexpr double kAroundMm = 0.5;
constexpr double kBelowBaseShare = 0.24;  // of the size (DejaVu Sans)

/// x and y exchanged: what holds along a horizontal edge then holds along a vertical one.
PageRect transposed(const PageRect& r) { return {r.top_mm, r.left_mm, r.bottom_mm, r.right_mm}; }

bool meet(const PageRect& a, const PageRect& b) {
  return a.left_mm < b.right_mm && b.left_mm < a.right_mm && a.top_mm < b.bottom_mm &&
         b.top_mm < a.bottom_mm;
}

/// A free box of this size in the strip, as near to its middle as there is one.
std::optional<PageRect> free_box(const PageRect& strip, double width, double height,
                                 const std::vector<PageRect>& taken) {
  if (strip.width_mm() < width + 2 * kAroundMm || strip.height_mm() < height + 2 * kAroundMm) {
    return std::nullopt;
  }
  const Point<PageMm> middle = strip.centre();
  const auto box_at = [&](double x) {
    return PageRect{x - width / 2, middle.y - height / 2, x + width / 2, middle.y + height / 2};
  };
  const double most = (strip.width_mm() - width) / 2 - kAroundMm;
  constexpr double kSlideMm = 0.25;
  for (double away = 0.0; away <= most; away += kSlideMm) {
    for (const double x : {middle.x - away, middle.x + away}) {
      const PageRect box = box_at(x);
      const PageRect clear = box.grown(kAroundMm);
      if (std::none_of(taken.begin(), taken.end(),
                       [&](const PageRect& t) { return meet(clear, t); })) {
        return box;
      }
    }
  }
  return std::nullopt;
}

/// Below and above the cards.
std::vector<PageRect> strips_above_and_below(const PageRect& area, const PageRect& inked) {
  return {{area.left_mm, inked.bottom_mm, area.right_mm, area.bottom_mm},
          {area.left_mm, area.top_mm, area.right_mm, inked.top_mm}};
}

std::optional<PageRect> free_box(const PageRect& area, const PageRect& inked, double width,
                                 double height, const std::vector<PageRect>& taken) {
  for (const PageRect& strip : strips_above_and_below(area, inked)) {
    if (const auto box = free_box(strip, width, height, taken)) return box;
  }
  return std::nullopt;
}

}  // namespace

std::optional<WasteNote> waste_note(const std::string& words, const PageRect& area,
                                    const PageRect& inked, const std::vector<PageRect>& taken) {
  std::vector<PageRect> taken_across;
  for (const PageRect& t : taken) taken_across.push_back(transposed(t));
  for (double size = kLargestNoteMm; size > kSmallestNoteMm - 1e-9; size -= kNoteStepMm) {
    const double width = text_width_mm(words, size);
    if (const auto box = free_box(area, inked, width, size, taken)) {
      return WasteNote{words, *box, size, false};
    }
    if (const auto box = free_box(transposed(area), transposed(inked), width, size, taken_across)) {
      return WasteNote{words, transposed(*box), size, true};
    }
  }
  return std::nullopt;
}

Text text_of(const WasteNote& note, const PageRect& box) {
  Text text;
  text.utf8 = note.words;
  text.size_mm = note.size_mm;
  const double base = kBelowBaseShare * note.size_mm;
  if (note.downwards) {
    text.at = {box.left_mm + base, box.top_mm};
    text.angle_deg = 90.0;
  } else {
    text.at = {box.left_mm, box.bottom_mm - base};
  }
  return text;
}

}  // namespace versolay
