#include "measure/hole.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <opencv2/imgproc.hpp>
#include <vector>

#include "measure/median.h"
#include "measure/rim_fit.h"

namespace versolay {
namespace {

constexpr double kGridMm = 0.1;
constexpr double kOutlineMm = 0.35;     // the printed outline of the clear disc, kept out
constexpr double kSeenContrast = 0.15;  // something is there
constexpr double kGoodContrast = 0.40;  // it is dark enough to be black card
constexpr double kMostUneven = 0.20;    // of the paper's light, across the inside of a hole

struct SizeRange {
  double least_mm;
  double most_mm;
};
SizeRange radius_range(HoleKind kind) {
  return kind == HoleKind::punch ? SizeRange{1.8, 4.2} : SizeRange{0.12, 1.4};
}

/// Light on a square grid of the page around the expected centre.
struct Grid {
  cv::Mat1f light;
  cv::Mat1b in_disc;
  double half_mm = 0.0;
  Eigen::Vector2d offset(double column, double row) const {
    return {column * kGridMm - half_mm, row * kGridMm - half_mm};
  }
};

std::optional<Grid> sample_disc(const Sampler& image, const Affine<ScanPx, PageMm>& scan_from_page,
                                const Point<PageMm>& centre, double radius_mm) {
  const int cells = 2 * static_cast<int>(std::ceil(radius_mm / kGridMm)) + 1;
  Grid grid{cv::Mat1f(cells, cells, 255.0F), cv::Mat1b(cells, cells, std::uint8_t{0}),
            (cells - 1) / 2 * kGridMm};
  for (int row = 0; row < cells; ++row) {
    for (int column = 0; column < cells; ++column) {
      const Eigen::Vector2d offset = grid.offset(column, row);
      if (offset.norm() > radius_mm) continue;
      const auto p = scan_from_page(Point<PageMm>::from(centre.vec() + offset));
      if (!image.inside(p)) return std::nullopt;
      grid.light(row, column) = static_cast<float>(image.at(p));
      grid.in_disc(row, column) = 1;
    }
  }
  return grid;
}

double median_in_disc(const Grid& grid) {
  std::vector<float> values;
  for (int row = 0; row < grid.light.rows; ++row) {
    for (int column = 0; column < grid.light.cols; ++column) {
      if (grid.in_disc(row, column)) values.push_back(grid.light(row, column));
    }
  }
  return median(std::move(values));
}

struct Blob {
  Eigen::Vector2d centre_mm;  // from the expected centre
  double radius_mm = 0.0;     // of the disc of equal area
  bool touches_rim = false;
};

std::optional<Blob> darkest_blob(const Grid& grid, double level, double disc_radius_mm) {
  cv::Mat1b dark(grid.light.size(), std::uint8_t{0});
  for (int row = 0; row < dark.rows; ++row) {
    for (int column = 0; column < dark.cols; ++column) {
      dark(row, column) = grid.in_disc(row, column) && grid.light(row, column) < level ? 255 : 0;
    }
  }
  cv::Mat labels;
  cv::Mat statistics;
  cv::Mat centroids;
  const int count = cv::connectedComponentsWithStats(dark, labels, statistics, centroids, 8);
  int largest = 0;
  int area = 0;
  for (int label = 1; label < count; ++label) {
    if (statistics.at<int>(label, cv::CC_STAT_AREA) > area) {
      area = statistics.at<int>(label, cv::CC_STAT_AREA);
      largest = label;
    }
  }
  if (largest == 0) return std::nullopt;
  Blob blob;
  blob.centre_mm = grid.offset(centroids.at<double>(largest, 0), centroids.at<double>(largest, 1));
  blob.radius_mm = std::sqrt(area / std::numbers::pi) * kGridMm;
  for (int row = 0; row < dark.rows; ++row) {
    for (int column = 0; column < dark.cols; ++column) {
      if (labels.at<int>(row, column) == largest &&
          grid.offset(column, row).norm() > disc_radius_mm - 1.5 * kGridMm) {
        blob.touches_rim = true;
      }
    }
  }
  return blob;
}

double mean_light(const Sampler& image, const Affine<ScanPx, PageMm>& scan_from_page,
                  const Eigen::Vector2d& centre, double from_mm, double to_mm) {
  std::vector<double> values;
  for (int ring = 0; ring < 6; ++ring) {
    const double radius = from_mm + (to_mm - from_mm) * ring / 5.0;
    for (int i = 0; i < 36; ++i) {
      const double angle = 2 * std::numbers::pi * i / 36;
      const auto p = scan_from_page(
          Point<PageMm>::from(centre + radius * Eigen::Vector2d(std::cos(angle), std::sin(angle))));
      if (image.inside(p)) values.push_back(image.at(p));
    }
  }
  if (values.empty()) return 0.0;
  return median(std::move(values));
}

/// How much lighter the inside of a hole is on one side than on the other: twice the amplitude of
/// the first harmonic of light on a circle inside it. Black card is even; on a lid, the sheet
/// throws a crescent of shadow into the hole.
double unevenness(const Sampler& image, const Affine<ScanPx, PageMm>& scan_from_page,
                  const Eigen::Vector2d& centre, double radius_mm) {
  constexpr int kPlaces = 48;
  constexpr double kInside = 0.75;
  Eigen::Vector2d harmonic = Eigen::Vector2d::Zero();
  for (int i = 0; i < kPlaces; ++i) {
    const double angle = 2 * std::numbers::pi * i / kPlaces;
    const Eigen::Vector2d direction(std::cos(angle), std::sin(angle));
    const auto p = scan_from_page(Point<PageMm>::from(centre + kInside * radius_mm * direction));
    if (image.inside(p)) harmonic += 2.0 / kPlaces * image.at(p) * direction;
  }
  return 2 * harmonic.norm();
}

/// The first place on each ray, from inside, where the light rises through `level`.
std::vector<RimPoint> rim_points(const Sampler& image, const Affine<ScanPx, PageMm>& scan_from_page,
                                 const Eigen::Vector2d& centre, double radius_mm, double level,
                                 int rays) {
  const double step = 0.5 / px_per_mm(scan_from_page);  // half a pixel
  const double from = 0.4 * radius_mm;
  const double to = 1.35 * radius_mm + 0.35;
  std::vector<RimPoint> points;
  for (int ray = 0; ray < rays; ++ray) {
    const double angle = 2 * std::numbers::pi * (ray + 0.5) / rays;
    const Eigen::Vector2d along(std::cos(angle), std::sin(angle));
    double before = 256.0;
    for (double r = from; r <= to; r += step) {
      const auto p = scan_from_page(Point<PageMm>::from(centre + r * along));
      if (!image.inside(p)) break;
      const double light = image.at(p);
      if (before < level && light >= level) {
        points.push_back({angle, r - step * (light - level) / (light - before), 0});
        break;
      }
      before = light;
    }
  }
  return points;
}

}  // namespace

std::string_view to_string(HoleMiss miss) {
  switch (miss) {
    case HoleMiss::outside:
      return "outside";
    case HoleMiss::none_made:
      return "none_made";
    case HoleMiss::poor_contrast:
      return "poor_contrast";
    case HoleMiss::uneven_light:
      return "uneven_light";
    case HoleMiss::cut_off:
      return "cut_off";
    case HoleMiss::wrong_size:
      return "wrong_size";
    case HoleMiss::ragged:
      return "ragged";
    case HoleMiss::marks_smeared:
      return "marks_smeared";
  }
  return "";
}

std::variant<HoleSighting, HoleMiss> find_hole(const Sampler& image,
                                               const Affine<PageMm, ScanPx>& page_from_scan,
                                               const Point<PageMm>& expected, HoleKind kind,
                                               double clear_radius_mm) {
  const auto scan_from_page = page_from_scan.inverse();
  const double disc_radius = clear_radius_mm - kOutlineMm;
  auto grid = sample_disc(image, scan_from_page, expected, disc_radius);
  if (!grid) return HoleMiss::outside;

  // The darkest spot after a small blur, so that one speck of noise is not taken for a hole.
  const double paper = median_in_disc(*grid);
  cv::Mat1f smooth;
  cv::blur(grid->light, smooth, {3, 3});
  double darkest = 0.0;
  cv::minMaxLoc(smooth, &darkest, nullptr, nullptr, nullptr, grid->in_disc);
  if (paper <= 0.0 || paper - darkest < kSeenContrast * paper) return HoleMiss::none_made;

  const auto blob = darkest_blob(*grid, (paper + darkest) / 2, disc_radius);
  if (!blob) return HoleMiss::none_made;
  const SizeRange sizes = radius_range(kind);
  if (blob->touches_rim) return HoleMiss::cut_off;
  if (blob->radius_mm < sizes.least_mm) return HoleMiss::none_made;  // dirt
  if (blob->radius_mm > sizes.most_mm) return HoleMiss::wrong_size;

  const int rays = kind == HoleKind::punch ? 180 : 60;
  Eigen::Vector2d centre = expected.vec() + blob->centre_mm;
  double radius = blob->radius_mm;
  HoleSighting sighting;
  for (int pass = 0; pass < 3; ++pass) {
    const double inside = mean_light(image, scan_from_page, centre, 0.0, 0.6 * radius);
    const double outside =
        mean_light(image, scan_from_page, centre, 1.2 * radius + 0.15, 1.35 * radius + 0.4);
    sighting.contrast = outside > 0.0 ? (outside - inside) / outside : 0.0;
    if (sighting.contrast < kGoodContrast) return HoleMiss::poor_contrast;
    if (kind == HoleKind::punch &&  // a prick is all rim
        unevenness(image, scan_from_page, centre, radius) > kMostUneven * outside) {
      return HoleMiss::uneven_light;
    }
    const auto points =
        rim_points(image, scan_from_page, centre, radius, (inside + outside) / 2, rays);
    const auto fit = fit_rims(points, 1, rays);
    if (!fit) return HoleMiss::ragged;
    centre += fit->centre_mm;
    radius = fit->radii_mm[0];
    sighting.oval_mm = fit->second_harmonic_mm[0];
    sighting.ovality = fit->second_harmonic_mm[0].norm() / radius;
    sighting.rim_sd_mm = std::sqrt(fit->covariance_mm2.trace() / 2);
  }
  if (radius < sizes.least_mm || radius > sizes.most_mm) return HoleMiss::wrong_size;
  if (sighting.ovality > 0.15) return HoleMiss::ragged;
  sighting.centre = scan_from_page(Point<PageMm>::from(centre));
  sighting.radius_mm = radius;
  return sighting;
}

}  // namespace versolay
