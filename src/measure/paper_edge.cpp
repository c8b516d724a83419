#include "measure/paper_edge.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>
#include <vector>

#include "measure/median.h"

namespace versolay {
namespace {

// Limits are from memory of scanners and cut paper; tests/unit/measure_edge_test.cpp holds them
// against drawn edges.
constexpr double kHalfLengthMm = 5.0;
constexpr double kLineStepMm = 0.25;
constexpr double kBeyondMm = 1.0;  // this much background must be seen
/// Around a crossing, where the light goes from the one level to the other: pixels, and what optics
/// and the cut add to them. The levels are taken from as much again to both sides.
constexpr double kSlopePx = 1.5;
constexpr double kSlopeMm = 0.05;
constexpr double kLeastContrast = 0.4;  // of the paper's level: black card, not a lid
constexpr double kLeastShare = 0.7;     // of the lines
constexpr double kMostScatterMm = 0.05;
constexpr double kLeastSigmaMm = 0.003;  // rounding, sampling
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

/// Lines outward, side by side; the first value of each is `from_mm` from the ring.
struct Lines {
  std::vector<Line> all;
  double from_mm;
  double step_mm;
  double seen_to_mm = 0.0;  // by the shortest of them
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

/// A line and the index of its first value beyond the edge.
struct CrossingLine {
  const Line* line;
  std::size_t beyond;
};

/// The place that has as much light on its outer side as dark on its inner side. Between pixels
/// that are as coarse as the edge is sharp, where the light crosses a level depends on where the
/// pixels lie, by a tenth of a pixel; the sum of the light hardly does.
class LightSum {
 public:
  /// @param reach  of the slope to either side, in steps of the lines.
  LightSum(const std::vector<CrossingLine>& lines, std::size_t reach) : reach_(reach) {
    std::vector<double> paper;
    std::vector<double> background;
    for (const CrossingLine& c : lines) {
      if (!has_room(c)) continue;
      paper.push_back(mean(*c.line, c.beyond - 2 * reach, c.beyond - reach));
      background.push_back(mean(*c.line, c.beyond + reach - 1, c.beyond + 2 * reach - 1));
    }
    if (!paper.empty()) levels_ = {median(paper), median(background)};
  }

  /// In steps from the beginning of the line. nullopt: something else is too near.
  std::optional<double> edge(const CrossingLine& c) const {
    if (!has_room(c) || levels_.paper <= levels_.background) return std::nullopt;
    double paper_steps = 0.0;  // trapezoids; the crossing is in the middle one
    for (std::size_t i = c.beyond - reach_; i + 1 < c.beyond + reach_; ++i) {
      const double light = (c.line->light[i] + c.line->light[i + 1]) / 2;
      paper_steps += (light - levels_.background) / (levels_.paper - levels_.background);
    }
    return static_cast<double>(c.beyond - reach_) + paper_steps;
  }

 private:
  bool has_room(const CrossingLine& c) const {
    return c.beyond >= 2 * reach_ && c.beyond + 2 * reach_ <= c.line->light.size();
  }
  /// Of the values from `first` to `last`, both counted.
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
std::vector<Crossing> crossings_of(const Lines& lines, const Levels& levels, double pixel_mm) {
  std::vector<CrossingLine> crossing;
  for (const Line& line : lines.all) {
    if (const auto beyond = first_beyond(line, levels)) crossing.push_back({&line, *beyond});
  }
  const double reach_mm = kSlopePx * pixel_mm + kSlopeMm;
  const LightSum sum(crossing, static_cast<std::size_t>(std::ceil(reach_mm / lines.step_mm)));
  std::vector<Crossing> crossings;
  for (const CrossingLine& c : crossing) {
    if (const auto edge = sum.edge(c)) {
      crossings.push_back({c.line->along_mm, lines.from_mm + lines.step_mm * *edge});
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
    const double limit = kRejectSigmas * std::max(kLeastSigmaMm, robust_sd(sizes));
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

std::variant<Lines, EdgeMiss> lines_outward(const Sampler& image,
                                            const Affine<ScanPx, PageMm>& scan_from_page,
                                            const Point<PageMm>& ring,
                                            const Eigen::Vector2d& outward, double from_mm,
                                            double to_mm, double step_mm) {
  Lines lines{{}, from_mm, step_mm};
  const Eigen::Vector2d tangent(-outward.y(), outward.x());
  const int count = static_cast<int>((to_mm - from_mm) / step_mm) + 1;
  const Eigen::Vector2d first =
      scan_from_page(Point<PageMm>::from(ring.vec() + from_mm * outward)).vec();
  const Eigen::Vector2d along_px = scan_from_page.linear() * tangent;  // for each mm
  const Eigen::Vector2d outward_px = scan_from_page.linear() * outward * step_mm;
  auto shortest = static_cast<std::size_t>(count);
  for (double along = -kHalfLengthMm; along <= kHalfLengthMm; along += kLineStepMm) {
    if (!image.inside(scan_from_page(Point<PageMm>::from(ring.vec() + along * tangent)))) {
      return EdgeMiss::outside;
    }
    Line line{along, light_along(image, first + along * along_px, outward_px, count)};
    if (line.light.size() < 4) return EdgeMiss::cut_off;
    shortest = std::min(shortest, line.light.size());
    lines.all.push_back(std::move(line));
  }
  lines.seen_to_mm = from_mm + step_mm * static_cast<double>(shortest - 1);
  return lines;
}

Levels levels_of(const std::vector<Line>& lines) {
  std::vector<double> paper;
  std::vector<double> background;
  for (const Line& line : lines) {
    paper.push_back(line.light[1]);
    background.push_back(*std::min_element(line.light.begin(), line.light.end()));
  }
  return {median(paper), median(background)};
}

}  // namespace

std::variant<EdgeSighting, EdgeMiss> find_edge(const Sampler& image,
                                               const Affine<ScanPx, PageMm>& scan_from_page,
                                               const Point<PageMm>& ring,
                                               const Eigen::Vector2d& outward, double clear_mm,
                                               double expected_mm, double reach_mm) {
  const auto outcome = lines_outward(image, scan_from_page, ring, outward, clear_mm,
                                     expected_mm + reach_mm, profile_step_mm(scan_from_page));
  if (const auto* miss = std::get_if<EdgeMiss>(&outcome)) return *miss;
  const Lines& lines = std::get<Lines>(outcome);
  const Levels levels = levels_of(lines.all);
  if (levels.paper - levels.background < kLeastContrast * levels.paper) {
    return lines.seen_to_mm >= expected_mm + kBeyondMm ? EdgeMiss::poor_contrast
                                                       : EdgeMiss::cut_off;
  }
  const double least_used = kLeastShare * static_cast<double>(lines.all.size());
  const auto crossings = crossings_of(lines, levels, 1.0 / px_per_mm(scan_from_page));
  if (static_cast<double>(crossings.size()) < least_used) return EdgeMiss::ragged;
  const auto line = robust_line(crossings);
  if (!line || line->used < least_used || line->scatter_mm > kMostScatterMm) {
    return EdgeMiss::ragged;
  }
  if (lines.seen_to_mm < line->at_ring_mm + kBeyondMm) return EdgeMiss::cut_off;
  EdgeSighting sighting;
  sighting.at = scan_from_page(Point<PageMm>::from(ring.vec() + line->at_ring_mm * outward));
  sighting.sd_mm = line->scatter_mm / std::sqrt(static_cast<double>(line->used));
  return sighting;
}

}  // namespace versolay
