#include "measure/edge.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>
#include <vector>

#include "measure/median.h"

namespace versolay {
namespace {

constexpr double kHalfLengthMm = 5.0;
constexpr double kLineStepMm = 0.25;
constexpr double kFinestStepMm = 0.04;  // outward: no scanned edge is sharper
constexpr double kBeyondMm = 1.0;       // this much background must be seen
/// Around a crossing, where the light goes from the one level to the other: pixels, and what optics
/// and the cut add to them. The levels are taken from as much again to both sides.
constexpr double kSlopePx = 1.5;
constexpr double kSlopeMm = 0.05;
constexpr double kLeastContrast = 0.4;  // of the paper's level: black card, not a lid
constexpr double kLeastShare = 0.7;     // of the lines
constexpr double kMostScatterMm = 0.05;
constexpr double kLeastSigmaMm = 0.003;
constexpr int kIterations = 5;

struct Crossing {
  double along_mm;   // from the ring, along the edge
  double beyond_mm;  // from the ring, outward
};

/// One line outward: light values, and how far the picture lets us look.
struct Line {
  double along_mm;
  std::vector<double> light;
};

/// Light at `count` places from `first` onwards, or as many of them as the picture shows.
std::vector<double> light_along(const Sampler& image, const Eigen::Vector2d& first,
                                const Eigen::Vector2d& step, int count) {
  std::vector<double> light;
  light.reserve(static_cast<std::size_t>(count));
  const bool all_inside = image.inside(Point<ScanPx>::from(first)) &&
                          image.inside(Point<ScanPx>::from(first + (count - 1) * step));
  for (int i = 0; i < count; ++i) {
    const auto p = Point<ScanPx>::from(first + i * step);
    if (!all_inside && !image.inside(p)) break;
    light.push_back(image.at(p));
  }
  return light;
}

struct Levels {
  double paper;
  double background;
};

/// Index of the first value beyond the edge.
std::optional<std::size_t> first_beyond(const Line& line, const Levels& levels) {
  const double level = (levels.paper + levels.background) / 2;
  for (std::size_t i = 1; i < line.light.size(); ++i) {
    if (line.light[i - 1] >= level && line.light[i] < level) return i;
  }
  return std::nullopt;
}

/// The place that has as much light on its outer side as dark on its inner side. Between pixels
/// that are as coarse as the edge is sharp, where the light crosses a level depends on where the
/// pixels lie, by a tenth of a pixel; the sum of the light hardly does.
class LightSum {
 public:
  /// @param reach  of the slope, in steps of the lines.
  LightSum(const std::vector<Line>& lines, const std::vector<std::size_t>& beyond,
           std::size_t reach)
      : reach_(reach) {
    std::vector<double> paper;
    std::vector<double> background;
    for (std::size_t k = 0; k < lines.size(); ++k) {
      if (!has_room(lines[k], beyond[k])) continue;
      paper.push_back(mean(lines[k], beyond[k] - 2 * reach, beyond[k] - reach));
      background.push_back(mean(lines[k], beyond[k] + reach - 1, beyond[k] + 2 * reach - 1));
    }
    if (!paper.empty()) levels_ = {median(paper), median(background)};
  }

  /// In steps from the beginning of the line. nullopt: something else is too near.
  std::optional<double> edge(const Line& line, std::size_t beyond) const {
    if (!has_room(line, beyond) || levels_.paper <= levels_.background) return std::nullopt;
    double paper_steps = 0.0;  // trapezoids; the crossing is in the middle one
    for (std::size_t i = beyond - reach_; i + 1 < beyond + reach_; ++i) {
      const double light = (line.light[i] + line.light[i + 1]) / 2;
      paper_steps += (light - levels_.background) / (levels_.paper - levels_.background);
    }
    return static_cast<double>(beyond - reach_) + paper_steps;
  }

 private:
  bool has_room(const Line& line, std::size_t beyond) const {
    return beyond >= 2 * reach_ && beyond + 2 * reach_ <= line.light.size();
  }
  static double mean(const Line& line, std::size_t first, std::size_t last) {
    const auto begin = line.light.begin();
    return std::accumulate(begin + static_cast<std::ptrdiff_t>(first),
                           begin + static_cast<std::ptrdiff_t>(last + 1), 0.0) /
           static_cast<double>(last - first + 1);
  }

  std::size_t reach_;
  Levels levels_{0.0, 0.0};
};

/// Where the lines cross the edge; lines that do not, or not clearly, are left out.
std::vector<Crossing> crossings_of(const std::vector<Line>& lines, const Levels& levels,
                                   double from_mm, double step_mm, double pixel_mm) {
  std::vector<Line> crossing;
  std::vector<std::size_t> beyond;
  for (const Line& line : lines) {
    const auto index = first_beyond(line, levels);
    if (!index) continue;
    crossing.push_back(line);
    beyond.push_back(*index);
  }
  const double reach_mm = kSlopePx * pixel_mm + kSlopeMm;
  const LightSum sum(crossing, beyond, static_cast<std::size_t>(std::ceil(reach_mm / step_mm)));
  std::vector<Crossing> crossings;
  for (std::size_t k = 0; k < crossing.size(); ++k) {
    if (const auto edge = sum.edge(crossing[k], beyond[k])) {
      crossings.push_back({crossing[k].along_mm, from_mm + step_mm * *edge});
    }
  }
  return crossings;
}

struct StraightLine {
  double at_ring_mm = 0.0;
  double scatter_mm = 0.0;
  int used = 0;
};

/// Line through the crossings, Tukey's biweight.
std::optional<StraightLine> robust_line(const std::vector<Crossing>& crossings) {
  std::vector<double> beyond;
  for (const Crossing& c : crossings) beyond.push_back(c.beyond_mm);
  double offset = median(beyond);
  double slope = 0.0;
  StraightLine line;
  double weight_sum = 0.0;
  for (int iteration = 0; iteration < kIterations; ++iteration) {
    std::vector<double> sizes;
    for (const Crossing& c : crossings) {
      sizes.push_back(std::abs(c.beyond_mm - offset - slope * c.along_mm));
    }
    const double limit = 4.0 * std::max(kLeastSigmaMm, 1.4826 * median(sizes));
    Eigen::Matrix2d normal = Eigen::Matrix2d::Zero();
    Eigen::Vector2d right = Eigen::Vector2d::Zero();
    double squares = 0.0;
    weight_sum = 0.0;
    line.used = 0;
    for (std::size_t i = 0; i < crossings.size(); ++i) {
      if (sizes[i] >= limit) continue;
      const double u = sizes[i] / limit;
      const double weight = (1 - u * u) * (1 - u * u);
      const Eigen::Vector2d row(1.0, crossings[i].along_mm);
      normal += weight * row * row.transpose();
      right += weight * crossings[i].beyond_mm * row;
      squares += weight * sizes[i] * sizes[i];
      weight_sum += weight;
      ++line.used;
    }
    if (std::abs(normal.determinant()) < 1e-9) return std::nullopt;
    const Eigen::Vector2d solution = normal.inverse() * right;
    offset = solution[0];
    slope = solution[1];
    line.scatter_mm = std::sqrt(squares / weight_sum);
  }
  line.at_ring_mm = offset;
  return line;
}

}  // namespace

std::variant<EdgeSighting, EdgeMiss> find_edge(const Sampler& image,
                                               const Affine<ScanPx, PageMm>& scan_from_page,
                                               const Point<PageMm>& ring,
                                               const Eigen::Vector2d& outward, double clear_mm,
                                               double expected_mm, double reach_mm) {
  const double half_pixel_mm = 0.5 / std::sqrt(std::abs(scan_from_page.linear().determinant()));
  const double step = std::max(half_pixel_mm, kFinestStepMm);
  const Eigen::Vector2d tangent(-outward.y(), outward.x());
  const double to = expected_mm + reach_mm;
  std::vector<Line> lines;
  std::vector<double> paper;
  std::vector<double> background;
  std::size_t shortest = 1u << 20;
  const int count = static_cast<int>((to - clear_mm) / step) + 1;
  const Eigen::Vector2d first =
      scan_from_page(Point<PageMm>::from(ring.vec() + clear_mm * outward)).vec();
  const Eigen::Vector2d along_px = scan_from_page.linear() * tangent;  // for each mm
  const Eigen::Vector2d outward_px = scan_from_page.linear() * outward * step;
  for (double along = -kHalfLengthMm; along <= kHalfLengthMm; along += kLineStepMm) {
    if (!image.inside(scan_from_page(Point<PageMm>::from(ring.vec() + along * tangent)))) {
      return EdgeMiss::outside;
    }
    Line line{along, light_along(image, first + along * along_px, outward_px, count)};
    if (line.light.size() < 4) return EdgeMiss::cut_off;
    shortest = std::min(shortest, line.light.size());
    paper.push_back(line.light[1]);
    background.push_back(*std::min_element(line.light.begin(), line.light.end()));
    lines.push_back(std::move(line));
  }
  const Levels levels{median(paper), median(background)};
  if (levels.paper - levels.background < kLeastContrast * levels.paper) {
    const double seen_to = clear_mm + step * static_cast<double>(shortest);
    return seen_to >= expected_mm + kBeyondMm ? EdgeMiss::poor_contrast : EdgeMiss::cut_off;
  }
  const std::vector<Crossing> crossings =
      crossings_of(lines, levels, clear_mm, step, 2 * half_pixel_mm);
  if (static_cast<double>(crossings.size()) < kLeastShare * static_cast<double>(lines.size())) {
    return EdgeMiss::ragged;
  }
  const auto line = robust_line(crossings);
  if (!line || line->used < kLeastShare * static_cast<double>(lines.size()) ||
      line->scatter_mm > kMostScatterMm) {
    return EdgeMiss::ragged;
  }
  const double seen_to = clear_mm + step * static_cast<double>(shortest - 1);
  if (seen_to < line->at_ring_mm + kBeyondMm) return EdgeMiss::cut_off;
  EdgeSighting sighting;
  sighting.at = scan_from_page(Point<PageMm>::from(ring.vec() + line->at_ring_mm * outward));
  sighting.sd_mm = line->scatter_mm / std::sqrt(static_cast<double>(line->used));
  return sighting;
}

}  // namespace versolay
