#include "imposition/slug.h"

#include <algorithm>
#include <array>

#include "pdf/fonts.h"
#include "pdf/text_block.h"

namespace versolay {
namespace {

constexpr double kSizeMm = 2.2;
constexpr double kSmallestMm = 1.6;
constexpr double kDescentShare = 0.25;  // of the size, below the base line (DejaVu Sans: 0.24)
constexpr double kFromCornerMm = 3.0;

}  // namespace

std::optional<SlugPlace> slug_place(const PageRect& inked, const PageRect& area, double guides_mm) {
  struct Candidate {
    SlugSide side;
    double waste_mm;
  };
  const std::array<Candidate, 4> candidates = {{
      {SlugSide::bottom, area.bottom_mm - inked.bottom_mm},
      {SlugSide::top, inked.top_mm - area.top_mm},
      {SlugSide::left, inked.left_mm - area.left_mm},
      {SlugSide::right, area.right_mm - inked.right_mm},
  }};
  const auto best =
      std::max_element(candidates.begin(), candidates.end(),
                       [](const auto& a, const auto& b) { return a.waste_mm < b.waste_mm - 1e-9; });
  if (best->waste_mm < kSlugStripMm + guides_mm) return std::nullopt;
  SlugPlace place{best->side, area};
  switch (best->side) {
    case SlugSide::top:
      place.strip.bottom_mm = area.top_mm + kSlugStripMm;
      break;
    case SlugSide::right:
      place.strip.left_mm = area.right_mm - kSlugStripMm;
      break;
    case SlugSide::bottom:
      place.strip.top_mm = area.bottom_mm - kSlugStripMm;
      break;
    case SlugSide::left:
      place.strip.right_mm = area.left_mm + kSlugStripMm;
      break;
  }
  return place;
}

PageRect without_strip(const PageRect& area, const SlugPlace& place) {
  PageRect rest = area;
  switch (place.side) {
    case SlugSide::top:
      rest.top_mm = place.strip.bottom_mm;
      break;
    case SlugSide::right:
      rest.right_mm = place.strip.left_mm;
      break;
    case SlugSide::bottom:
      rest.bottom_mm = place.strip.top_mm;
      break;
    case SlugSide::left:
      rest.left_mm = place.strip.right_mm;
      break;
  }
  return rest;
}

Text slug_text(const SlugPlace& place, const std::string& utf8, double length_mm) {
  const bool upright = place.side == SlugSide::top || place.side == SlugSide::bottom;
  const double room = length_mm - 2 * kFromCornerMm;
  const double size =
      std::clamp(kSizeMm * room / text_width_mm(utf8, kSizeMm), kSmallestMm, kSizeMm);
  Text text;
  text.utf8 = shortened(utf8, room, size);
  text.size_mm = size;
  if (upright) {
    text.at = {place.strip.left_mm + kFromCornerMm, place.strip.bottom_mm - kDescentShare * size};
  } else {  // turned clockwise: the text reads downwards, its base line is on the left
    text.at = {place.strip.left_mm + kDescentShare * size, place.strip.top_mm + kFromCornerMm};
    text.angle_deg = 90;
  }
  return text;
}

}  // namespace versolay
