#include "rehearse/paper_sheet.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace versolay::rehearse {
namespace {

double beyond(const PaperEdge& edge, double along, double half_length) {
  const double s = along / half_length;
  return edge.offset_mm + edge.slope * along + edge.bow_mm * (1.0 - s * s);
}

double largest(const PaperEdge& edge, double half_length) {
  return std::abs(edge.offset_mm) + std::abs(edge.slope) * half_length + std::abs(edge.bow_mm);
}

}  // namespace

double PaperSheet::distance_inside_mm(Side side, const Eigen::Vector2d& p_in_sheet) const {
  const Eigen::Vector2d p = side == Side::recto
                                ? p_in_sheet
                                : front_from_back(axis)(Point<SheetBackMm>::from(p_in_sheet)).vec();
  const double w = nominal.width_mm / 2.0, h = nominal.height_mm / 2.0;
  double inside =
      std::min({p.x() + w + beyond(edges[0], p.y(), h), w - p.x() + beyond(edges[1], p.y(), h),
                p.y() + h + beyond(edges[2], p.x(), w), h - p.y() + beyond(edges[3], p.x(), w)});
  if (torn_corner_mm > 0.0) {
    const double across = (w + h - torn_corner_mm - p.x() - p.y()) / std::numbers::sqrt2;
    const double along = p.x() - p.y();
    const double ragged =
        0.4 * std::sin(along * 0.9 + tear_phase) + 0.25 * std::sin(along * 2.7 + 2.0 * tear_phase);
    inside = std::min(inside, across + ragged);
  }
  return inside;
}

Eigen::Vector2d PaperSheet::safely_inside_mm() const {
  const double w = nominal.width_mm / 2.0, h = nominal.height_mm / 2.0;
  const double margin = 1.0 + torn_corner_mm;
  return {w - margin - std::max(largest(edges[0], h), largest(edges[1], h)),
          h - margin - std::max(largest(edges[2], w), largest(edges[3], w))};
}

PaperSheet draw_sheet(const Paper& paper, TurnAxis axis, const PaperSettings& s, Random random) {
  PaperSheet sheet;
  sheet.nominal = paper;
  sheet.axis = axis;
  for (PaperEdge& edge : sheet.edges) {
    edge.offset_mm = random.normal(s.size_sd_mm);
    edge.slope = random.normal(s.edge_slope_mrad * 1e-3);
    edge.bow_mm = random.normal(s.edge_bow_mm);
  }
  sheet.torn_corner_mm = s.torn_corner_mm;
  sheet.tear_phase = random.uniform(0.0, 2.0 * std::numbers::pi);
  for (std::vector<Blot>& side : sheet.blots) {
    for (int i = 0; i < s.blots; ++i) {
      side.push_back({{random.uniform(-0.48, 0.48) * paper.width_mm,
                       random.uniform(-0.48, 0.48) * paper.height_mm},
                      random.uniform(0.05, 0.4)});
    }
  }
  return sheet;
}

}  // namespace versolay::rehearse
