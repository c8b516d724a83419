#include "measure/edge.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "measure/median.h"

namespace versolay {
namespace {

constexpr double kHalfLengthMm = 5.0;
constexpr double kLineStepMm = 0.25;
constexpr double kFinestStepMm = 0.04;  // outward: no scanned edge is sharper
constexpr double kBeyondMm = 1.0;       // this much background must be seen
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

std::optional<Crossing> crossing_of(const Line& line, const Levels& levels, double from_mm,
                                    double step_mm) {
  const double level = (levels.paper + levels.background) / 2;
  for (std::size_t i = 1; i < line.light.size(); ++i) {
    const double before = line.light[i - 1];
    const double here = line.light[i];
    if (before >= level && here < level) {
      const double share = (before - level) / (before - here);
      return Crossing{line.along_mm, from_mm + step_mm * (static_cast<double>(i) - 1.0 + share)};
    }
  }
  return std::nullopt;
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
  std::vector<Crossing> crossings;
  for (const Line& line : lines) {
    if (const auto c = crossing_of(line, levels, clear_mm, step)) crossings.push_back(*c);
  }
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
