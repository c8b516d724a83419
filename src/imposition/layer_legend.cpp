#include "imposition/layer_legend.h"

#include <algorithm>
#include <optional>

#include "pdf/fonts.h"

namespace versolay {
namespace {

constexpr double kFromEdgeMm = 3.0;
constexpr double kFromDrawnMm = 1.0;
constexpr double kLargestMm = 2.8;
constexpr double kSmallestLegendMm = 1.6;
constexpr double kSizeStepMm = 0.1;
constexpr double kRowShare = 1.5;  // of the size: from base line to base line
constexpr double kSampleMm = 11.0;
constexpr double kAfterSampleMm = 1.5;
constexpr double kBetweenMm = 5.0;

/// A strip of the waste, as one reads along it: `along` its length, `deep` its depth.
struct Strip {
  Point<PageMm> corner;  // where reading begins, upper left to the reader
  double along_mm = 0.0;
  double deep_mm = 0.0;
  bool downwards = false;

  Point<PageMm> at(double along, double deep) const {
    return downwards ? Point<PageMm>{corner.x - deep, corner.y + along}
                     : Point<PageMm>{corner.x + along, corner.y + deep};
  }
};

std::vector<Strip> strips_of(const Paper& paper, const PageRect& drawn) {
  const double right = paper.width_mm / 2 - kFromEdgeMm;
  const double bottom = paper.height_mm / 2 - kFromEdgeMm;
  const double below = drawn.bottom_mm + kFromDrawnMm;
  const double left_end = drawn.left_mm - kFromDrawnMm;
  return {{{-right, below}, 2 * right, bottom - below, false},
          {{-right, -bottom}, 2 * right, drawn.top_mm - kFromDrawnMm + bottom, false},
          {{left_end, -bottom}, 2 * bottom, left_end + right, true},
          {{right, -bottom}, 2 * bottom, right - drawn.right_mm - kFromDrawnMm, true}};
}

/// Which row each item is in and where it begins.
struct Place {
  int row = 0;
  double along_mm = 0.0;
};

/// @return nullopt when they do not fit into the strip.
std::optional<std::vector<Place>> places_in(const Strip& strip, const std::vector<double>& widths,
                                            double size_mm) {
  std::vector<Place> places;
  int row = 0;
  double along = 0.0;
  for (const double width : widths) {
    if (width > strip.along_mm) return std::nullopt;
    if (along + width > strip.along_mm) {
      ++row;
      along = 0.0;
    }
    places.push_back({row, along});
    along += width + kBetweenMm;
  }
  if ((row + 1) * kRowShare * size_mm > strip.deep_mm) return std::nullopt;
  return places;
}

void add_item(GuidesLayer& layer, const Strip& strip, const LayerLegendItem& item, double along,
              double base, double size_mm) {
  const double middle = base - 0.35 * size_mm;
  const Point<PageMm> from = strip.at(along, middle);
  const Point<PageMm> to = strip.at(along + kSampleMm, middle);
  layer.lines.push_back({item.style, {from, to}, false});
  if (item.arrow) layer.lines.push_back(arrow_head(from, to, item.style));
}

void add_words(GuidesLayer& layer, const Strip& strip, const std::string& words, double along,
               double base, double size_mm) {
  Text text;
  text.at = strip.at(along, base);
  text.utf8 = words;
  text.size_mm = size_mm;
  text.angle_deg = strip.downwards ? 90.0 : 0.0;
  layer.notes.push_back(text);
}

}  // namespace

LayerLine arrow_head(const Point<PageMm>& from, const Point<PageMm>& tip, const LineStyle& style) {
  constexpr double kLengthMm = 1.8;
  constexpr double kHalfWidthMm = 0.7;
  const Eigen::Vector2d way = (tip.vec() - from.vec()).normalized();
  const Eigen::Vector2d across = kHalfWidthMm * Eigen::Vector2d(-way.y(), way.x());
  const Eigen::Vector2d back = tip.vec() - kLengthMm * way;
  return {
      style, {Point<PageMm>::from(back + across), tip, Point<PageMm>::from(back - across)}, false};
}

bool add_layer_legend(GuidesLayer& layer, const std::string& title,
                      const std::vector<LayerLegendItem>& items, const PageRect& drawn) {
  const std::vector<Strip> strips = strips_of(layer.paper, drawn);
  for (double size = kLargestMm; size > kSmallestLegendMm - 1e-9; size -= kSizeStepMm) {
    std::vector<double> widths = {text_width_mm(title, size)};
    for (const LayerLegendItem& item : items) {
      widths.push_back(kSampleMm + kAfterSampleMm + text_width_mm(item.words, size));
    }
    for (const Strip& strip : strips) {
      const auto places = places_in(strip, widths, size);
      if (!places) continue;
      const double row_mm = kRowShare * size;
      const double rows_mm = (places->back().row + 1) * row_mm;
      const auto base = [&](const Place& p) {
        return (strip.deep_mm - rows_mm) / 2 + p.row * row_mm + 1.1 * size;
      };
      add_words(layer, strip, title, places->front().along_mm, base(places->front()), size);
      for (std::size_t i = 0; i < items.size(); ++i) {
        const Place& place = (*places)[i + 1];
        add_item(layer, strip, items[i], place.along_mm, base(place), size);
        add_words(layer, strip, items[i].words, place.along_mm + kSampleMm + kAfterSampleMm,
                  base(place), size);
      }
      return true;
    }
  }
  return false;
}

}  // namespace versolay
