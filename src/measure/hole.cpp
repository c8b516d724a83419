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

// Limits are from memory of punches, pins and scanners; tests/unit/measure_hole_test.cpp holds them
// against drawn holes.
constexpr double kGridMm = 0.1;
constexpr double kOutlineMm = 0.35;            // the printed outline of the clear disc, kept out
constexpr double kTouchingMm = 1.5 * kGridMm;  // from the rim of the disc: cut off by it
constexpr double kSeenContrast = 0.15;         // something is there
constexpr double kGoodContrast = 0.40;         // it is dark enough to be black card
constexpr double kMostUneven = 0.20;           // of the paper's light, across the inside of a hole
constexpr double kMostOvality = 0.15;          // torn, or two punches side by side
constexpr int kPasses = 3;                     // from the blob to the rim
constexpr double kLighterThanAll = 256.0;      // of 255

struct SizeRange {
  double least_mm;
  double most_mm;
};
constexpr SizeRange kPunchRadii = {1.8, 4.2};  // punches of 5 to 8 mm
constexpr SizeRange kPrickRadii = {0.12, 1.4};
SizeRange radius_range(HoleKind kind) {
  return kind == HoleKind::punch ? kPunchRadii : kPrickRadii;
}

constexpr int kPunchRays = 180;
constexpr int kPrickRays = 60;
int rays_of(HoleKind kind) { return kind == HoleKind::punch ? kPunchRays : kPrickRays; }

/// A distance from the centre that follows the radius, with room for blur.
struct Reach {
  double of_radius;
  double and_mm;
  double at(double radius_mm) const { return of_radius * radius_mm + and_mm; }
};
constexpr Reach kInside = {0.6, 0.0};  // the light of the hole is taken up to there
constexpr Reach kPaperFrom = {1.2, 0.15};
constexpr Reach kPaperTo = {1.35, 0.4};
constexpr Reach kRimFrom = {0.4, 0.0};  // its rim is looked for between these
constexpr Reach kRimTo = {1.35, 0.35};

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
          grid.offset(column, row).norm() > disc_radius_mm - kTouchingMm) {
        blob.touches_rim = true;
      }
    }
  }
  return blob;
}

/// Median light between two circles.
double light_between(const Sampler& image, const Affine<ScanPx, PageMm>& scan_from_page,
                     const Eigen::Vector2d& centre, double from_mm, double to_mm) {
  constexpr int kCircles = 6;
  constexpr int kPlaces = 36;
  std::vector<double> values;
  for (int circle = 0; circle < kCircles; ++circle) {
    const double radius = from_mm + (to_mm - from_mm) * circle / (kCircles - 1.0);
    for (int i = 0; i < kPlaces; ++i) {
      const double angle = 2 * std::numbers::pi * i / kPlaces;
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
  constexpr double kWithin = 0.75;  // of the radius
  Eigen::Vector2d harmonic = Eigen::Vector2d::Zero();
  for (int i = 0; i < kPlaces; ++i) {
    const double angle = 2 * std::numbers::pi * i / kPlaces;
    const Eigen::Vector2d direction(std::cos(angle), std::sin(angle));
    const auto p = scan_from_page(Point<PageMm>::from(centre + kWithin * radius_mm * direction));
    if (image.inside(p)) harmonic += 2.0 / kPlaces * image.at(p) * direction;
  }
  return 2 * harmonic.norm();
}

/// The first place on each ray, from inside, where the light rises through `level`.
std::vector<RimPoint> rim_points(const Sampler& image, const Affine<ScanPx, PageMm>& scan_from_page,
                                 const Eigen::Vector2d& centre, double radius_mm, double level,
                                 int rays) {
  const double step = 0.5 / px_per_mm(scan_from_page);  // half a pixel
  const double from = kRimFrom.at(radius_mm);
  const double to = kRimTo.at(radius_mm);
  std::vector<RimPoint> points;
  for (int ray = 0; ray < rays; ++ray) {
    const double angle = 2 * std::numbers::pi * (ray + 0.5) / rays;
    const Eigen::Vector2d along(std::cos(angle), std::sin(angle));
    double before = kLighterThanAll;
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

/// Roughly where the hole is; or why it is none that can be read.
std::variant<Blob, HoleMiss> find_roughly(const Grid& grid, HoleKind kind, double disc_radius_mm) {
  // The darkest spot after a small blur, so that one speck of noise is not taken for a hole.
  const double paper = median_in_disc(grid);
  cv::Mat1f smooth;
  cv::blur(grid.light, smooth, {3, 3});
  double darkest = 0.0;
  cv::minMaxLoc(smooth, &darkest, nullptr, nullptr, nullptr, grid.in_disc);
  if (paper <= 0.0 || paper - darkest < kSeenContrast * paper) return HoleMiss::none_made;

  const auto blob = darkest_blob(grid, (paper + darkest) / 2, disc_radius_mm);
  if (!blob) return HoleMiss::none_made;
  const SizeRange sizes = radius_range(kind);
  if (blob->touches_rim) return HoleMiss::cut_off;
  if (blob->radius_mm < sizes.least_mm) return HoleMiss::none_made;  // dirt
  if (blob->radius_mm > sizes.most_mm) return HoleMiss::wrong_size;
  return *blob;
}

/// Fits the rim once from a first guess, and refines the guess. @return why it cannot be fitted.
std::optional<HoleMiss> fit_rim(const Sampler& image, const Affine<ScanPx, PageMm>& scan_from_page,
                                HoleKind kind, Eigen::Vector2d& centre, HoleSighting& sighting) {
  double& radius = sighting.radius_mm;
  const double inside = light_between(image, scan_from_page, centre, 0.0, kInside.at(radius));
  const double outside =
      light_between(image, scan_from_page, centre, kPaperFrom.at(radius), kPaperTo.at(radius));
  sighting.contrast = outside > 0.0 ? (outside - inside) / outside : 0.0;
  if (sighting.contrast < kGoodContrast) return HoleMiss::poor_contrast;
  if (kind == HoleKind::punch &&  // a prick is all rim
      unevenness(image, scan_from_page, centre, radius) > kMostUneven * outside) {
    return HoleMiss::uneven_light;
  }
  const int rays = rays_of(kind);
  const auto fit = fit_rims(
      rim_points(image, scan_from_page, centre, radius, (inside + outside) / 2, rays), 1, rays);
  if (!fit) return HoleMiss::ragged;
  centre += fit->centre_mm;
  radius = fit->radii_mm[0];
  sighting.oval_mm = fit->second_harmonic_mm[0];
  sighting.ovality = fit->second_harmonic_mm[0].norm() / radius;
  sighting.rim_sd_mm = std::sqrt(fit->covariance_mm2.trace() / 2);
  return std::nullopt;
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
  const auto grid = sample_disc(image, scan_from_page, expected, disc_radius);
  if (!grid) return HoleMiss::outside;
  const auto roughly = find_roughly(*grid, kind, disc_radius);
  if (const auto* miss = std::get_if<HoleMiss>(&roughly)) return *miss;
  const Blob& blob = std::get<Blob>(roughly);

  Eigen::Vector2d centre = expected.vec() + blob.centre_mm;
  HoleSighting sighting;
  sighting.radius_mm = blob.radius_mm;
  for (int pass = 0; pass < kPasses; ++pass) {
    if (const auto miss = fit_rim(image, scan_from_page, kind, centre, sighting)) return *miss;
  }
  const SizeRange sizes = radius_range(kind);
  if (sighting.radius_mm < sizes.least_mm || sighting.radius_mm > sizes.most_mm) {
    return HoleMiss::wrong_size;
  }
  if (sighting.ovality > kMostOvality) return HoleMiss::ragged;
  sighting.centre = scan_from_page(Point<PageMm>::from(centre));
  return sighting;
}

}  // namespace versolay
