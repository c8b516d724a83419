#include "imposition/art_reach.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace versolay {
namespace {

constexpr double kWhite = 0.97;    // of full scale: paper, with the noise of a JPEG
constexpr double kInsideMm = 0.4;  // where the card's own edge is looked at
constexpr double kStepMm = 0.05;
constexpr double kCornersMm = 3.0;  // corners may be rounded
constexpr int kPlaces = 20;         // along an edge

class Page {
 public:
  Page(const Raster& pixels, const Paper& paper)
      : pixels_(pixels),
        paper_(paper),
        px_per_mm_x_(pixels.width_px / paper.width_mm),
        px_per_mm_y_(pixels.height_px / paper.height_mm) {}

  double coarsest_mm() const { return 1 / std::min(px_per_mm_x_, px_per_mm_y_); }

  bool is_white(const Eigen::Vector2d& p) const {
    const int x = static_cast<int>(std::floor((p.x() + paper_.width_mm / 2) * px_per_mm_x_));
    const int y = static_cast<int>(std::floor((p.y() + paper_.height_mm / 2) * px_per_mm_y_));
    if (x < 0 || y < 0 || x >= pixels_.width_px || y >= pixels_.height_px) return true;
    // Of CMYK, no ink is white; of the others, full light.
    for (int c = 0; c < pixels_.channels; ++c) {
      const double value = static_cast<double>(pixels_.at(x, y, c)) / pixels_.largest();
      if ((pixels_.channels == 4 ? 1 - value : value) < kWhite) return false;
    }
    return true;
  }

 private:
  const Raster& pixels_;
  const Paper& paper_;
  double px_per_mm_x_, px_per_mm_y_;
};

/// One edge of a card: from `from` to `to`, outward is `out`.
struct Edge {
  Eigen::Vector2d from;
  Eigen::Vector2d to;
  Eigen::Vector2d out;
  double wanted_mm = 0.0;
};

std::vector<Edge> edges_of(const CardPlace& place) {
  const PageRect& c = place.cell;
  const PageRect& i = place.ink;
  const double low_y = c.top_mm + kCornersMm;
  const double high_y = c.bottom_mm - kCornersMm;
  const double low_x = c.left_mm + kCornersMm;
  const double high_x = c.right_mm - kCornersMm;
  return {{{c.left_mm, low_y}, {c.left_mm, high_y}, {-1, 0}, c.left_mm - i.left_mm},
          {{c.right_mm, low_y}, {c.right_mm, high_y}, {1, 0}, i.right_mm - c.right_mm},
          {{low_x, c.top_mm}, {high_x, c.top_mm}, {0, -1}, c.top_mm - i.top_mm},
          {{low_x, c.bottom_mm}, {high_x, c.bottom_mm}, {0, 1}, i.bottom_mm - c.bottom_mm}};
}

/// How far the ink goes on beyond the edge: the median of the places that have ink at the edge.
/// nullopt: half of them have none.
std::optional<double> reach_of(const Page& page, const Edge& edge) {
  std::vector<double> reach;
  for (int k = 0; k < kPlaces; ++k) {
    const Eigen::Vector2d at = edge.from + (k + 0.5) / kPlaces * (edge.to - edge.from);
    if (page.is_white(at - kInsideMm * edge.out)) continue;
    double beyond = 0.0;
    while (beyond < edge.wanted_mm && !page.is_white(at + (beyond + kStepMm) * edge.out)) {
      beyond += kStepMm;
    }
    reach.push_back(std::min(beyond, edge.wanted_mm));
  }
  if (reach.size() < kPlaces / 2) return std::nullopt;
  std::nth_element(reach.begin(), reach.begin() + static_cast<std::ptrdiff_t>(reach.size() / 2),
                   reach.end());
  return reach[reach.size() / 2];
}

}  // namespace

std::optional<ArtEnd> early_end_of_art(const Raster& pixels, const Paper& paper,
                                       std::span<const CardPlace> places) {
  const Page page(pixels, paper);
  const double slack_mm = page.coarsest_mm() + kStepMm;
  std::optional<ArtEnd> worst;
  for (const CardPlace& place : places) {
    for (const Edge& edge : edges_of(place)) {
      const auto reach = reach_of(page, edge);
      if (!reach || *reach >= edge.wanted_mm - slack_mm) continue;
      if (!worst || edge.wanted_mm - *reach > worst->wanted_mm - worst->reach_mm) {
        worst = ArtEnd{*reach, edge.wanted_mm};
      }
    }
  }
  return worst;
}

}  // namespace versolay
