#include "measure/ring.h"

#include <Eigen/Dense>
#include <algorithm>
#include <array>
#include <numbers>
#include <vector>

#include "measure/median.h"
#include "measure/rim_fit.h"

namespace versolay {
namespace {

// Limits are from memory of scanners and printers; tests/unit/measure_ring_test.cpp holds them
// against simulated dirt, blur and dot gain.
constexpr int kCoarseRays = 36;
constexpr int kFineRays = 72;
constexpr double kLeastRoughStepMm = 0.04;
constexpr double kFineReachMm = 0.75;    // beyond both edges, for the fine profiles
constexpr double kClearOfEdgeMm = 0.35;  // paper level is taken from there outwards
constexpr double kTailMm = 0.3;          // outside the outer rim: beyond the blur of a good scan
constexpr double kLeastRingContrast = 0.25;  // of the paper's level
constexpr int kLeastPaperSamples = 50;
constexpr double kPaperSigmas = 2.5;      // farther off is dirt
constexpr double kLeastPaperLimit = 6.0;  // grey levels, of 255: the noise of a scanner
constexpr double kMostSquare = 400.0;     // grey levels squared, counted for one sample
constexpr double kNoLimit = 1e9;
constexpr double kLeastRadiusMm = 0.2;           // where a rough search begins, for any reach
constexpr double kMostRoughRadiusErrorMm = 0.3;  // of the darkest circle: blur and dot gain
constexpr double kInkBeyondRimsMm = 0.2;         // the ink is sought there as well, for dot gain
constexpr double kMostRadiusErrorMm = 0.16;
constexpr double kMostResidualMm = 0.06;
constexpr double kSettledMm = 0.01;   // a second pass from this near changes nothing
constexpr double kWideReachMm = 0.8;  // from there on, what is found is looked at again from near
constexpr double kNearReachMm = 0.5;

Eigen::Vector2d direction(double angle) { return {std::cos(angle), std::sin(angle)}; }

/// Rays of one kind are the same for every ring: their directions are computed once.
struct Ray {
  double angle;
  Eigen::Vector2d direction;
};
std::vector<Ray> rays(int count, double phase) {
  std::vector<Ray> all;
  for (int i = 0; i < count; ++i) {
    const double angle = 2 * std::numbers::pi * (i + phase) / count;
    all.push_back({angle, direction(angle)});
  }
  return all;
}
const std::vector<Ray>& coarse_rays() {
  static const std::vector<Ray> all = rays(kCoarseRays, 0.0);
  return all;
}
const std::vector<Ray>& fine_rays() {
  static const std::vector<Ray> all = rays(kFineRays, 0.5);
  return all;
}

/// Light along a ray from a place of the page; `step_mm` apart, the first at `from_mm`.
class Profile {
 public:
  Profile(const Sampler& image, const Affine<ScanPx, PageMm>& scan_from_page,
          const Eigen::Vector2d& centre, const Ray& ray, double from_mm, double to_mm,
          double step_mm)
      : from_(from_mm), step_(step_mm) {
    const int count = static_cast<int>((to_mm - from_mm) / step_mm) + 1;
    const Eigen::Vector2d first =
        scan_from_page(Point<PageMm>::from(centre + from_mm * ray.direction)).vec();
    const Eigen::Vector2d step = scan_from_page.linear() * ray.direction * step_mm;
    const auto at = [&](int i) { return Point<ScanPx>::from(first + i * step); };
    if (!image.inside(at(0)) || !image.inside(at(count - 1))) return;
    values_.resize(static_cast<std::size_t>(count));
    for (int i = 0; i < count; ++i) values_[static_cast<std::size_t>(i)] = image.at(at(i));
    complete_ = true;
  }
  bool complete() const { return complete_; }
  int count() const { return static_cast<int>(values_.size()); }
  double operator[](int i) const { return values_[static_cast<std::size_t>(i)]; }
  double radius(double index) const { return from_ + index * step_; }
  int index(double radius) const {
    return std::clamp(static_cast<int>(std::lround((radius - from_) / step_)), 0, count() - 1);
  }

 private:
  double from_;
  double step_;
  std::vector<double> values_;
  bool complete_ = false;
};

/// One step towards the centre from the darkest place on each ray.
std::optional<Eigen::Vector2d> centre_of_dark(const Sampler& image,
                                              const Affine<ScanPx, PageMm>& scan_from_page,
                                              const Eigen::Vector2d& centre, double ring_radius,
                                              double reach_mm) {
  const double step = std::max(1.0 / px_per_mm(scan_from_page), kLeastRoughStepMm);
  std::vector<RimPoint> points;
  for (const Ray& ray : coarse_rays()) {
    const Profile profile(image, scan_from_page, centre, ray,
                          std::max(kLeastRadiusMm, ring_radius - reach_mm), ring_radius + reach_mm,
                          step);
    if (!profile.complete()) continue;
    int darkest = 0;
    for (int i = 1; i < profile.count(); ++i) {
      if (profile[i] < profile[darkest]) darkest = i;
    }
    points.push_back({ray.angle, profile.radius(darkest), 0});
  }
  const auto fit = fit_rims(points, 1, kCoarseRays, step);
  if (!fit || std::abs(fit->radii_mm[0] - ring_radius) > kMostRoughRadiusErrorMm)
    return std::nullopt;
  return centre + fit->centre_mm;
}

/// Paper level as a plane over the ring's neighbourhood.
struct PaperPlane {
  Eigen::Vector3d coefficients = Eigen::Vector3d::Zero();
  double at(const Eigen::Vector2d& offset_mm) const {
    return coefficients[0] + coefficients.tail<2>().dot(offset_mm);
  }
};

struct FineProfiles {
  std::vector<Profile> profiles;
  std::vector<Ray> rays;
};

/// On all rays that the picture shows wholly.
FineProfiles fine_profiles(const Sampler& image, const Affine<ScanPx, PageMm>& scan_from_page,
                           const Eigen::Vector2d& centre, const RingSize& size) {
  const double step = profile_step_mm(scan_from_page);
  FineProfiles fine;
  for (const Ray& ray : fine_rays()) {
    Profile profile(image, scan_from_page, centre, ray, size.inner_radius_mm - kFineReachMm,
                    size.outer_radius_mm + kFineReachMm, step);
    if (!profile.complete()) continue;
    fine.profiles.push_back(std::move(profile));
    fine.rays.push_back(ray);
  }
  return fine;
}

struct PaperSample {
  Eigen::Vector3d row;  // 1, x, y
  double light;
  double residual(const PaperPlane& plane) const { return light - row.dot(plane.coefficients); }
};

std::vector<PaperSample> samples_clear_of_ink(const FineProfiles& fine, const RingSize& size) {
  std::vector<PaperSample> samples;
  for (std::size_t k = 0; k < fine.profiles.size(); ++k) {
    const Profile& profile = fine.profiles[k];
    const int inner_end = profile.index(size.inner_radius_mm - kClearOfEdgeMm);
    const int outer_start = profile.index(size.outer_radius_mm + kClearOfEdgeMm);
    for (int i = 0; i < profile.count(); ++i) {
      if (i > inner_end && i < outer_start) continue;
      const Eigen::Vector2d offset = profile.radius(i) * fine.rays[k].direction;
      samples.push_back({{1.0, offset.x(), offset.y()}, profile[i]});
    }
  }
  return samples;
}

/// Least squares through the samples that lie within `limit` of `plane`.
std::optional<PaperPlane> plane_through(const std::vector<PaperSample>& samples,
                                        const PaperPlane& plane, double limit) {
  Eigen::Matrix3d normal = Eigen::Matrix3d::Zero();
  Eigen::Vector3d right = Eigen::Vector3d::Zero();
  int used = 0;
  for (const PaperSample& s : samples) {
    if (std::abs(s.residual(plane)) > limit) continue;
    normal += s.row * s.row.transpose();
    right += s.light * s.row;
    ++used;
  }
  if (used < kLeastPaperSamples) return std::nullopt;
  return PaperPlane{normal.ldlt().solve(right)};
}

/// Dirt is dark, and must not pull the plane down: what lies far off is left out, twice.
std::optional<PaperPlane> paper_plane(const FineProfiles& fine, const RingSize& size) {
  const std::vector<PaperSample> samples = samples_clear_of_ink(fine, size);
  auto plane = plane_through(samples, PaperPlane{}, kNoLimit);
  for (int round = 0; plane && round < 2; ++round) {
    double squares = 0.0;
    for (const PaperSample& s : samples) {
      squares += std::min(std::pow(s.residual(*plane), 2), kMostSquare);
    }
    const double sd = std::sqrt(squares / static_cast<double>(samples.size()));
    plane = plane_through(samples, *plane, std::max(kLeastPaperLimit, kPaperSigmas * sd));
  }
  return plane;
}

/// Of the darkest places on the rays.
double ink_level(const FineProfiles& fine) {
  std::vector<double> darkest;
  for (const Profile& profile : fine.profiles) {
    double least = profile[0];
    for (int i = 1; i < profile.count(); ++i) least = std::min(least, profile[i]);
    darkest.push_back(least);
  }
  return median(darkest);
}

/// Radii where the profile crosses the level midway between paper and ink, walking from the
/// darkest place outwards and inwards.
void add_crossings(const Profile& profile, const Ray& ray, double ink, const PaperPlane& paper,
                   const RingSize& size, std::vector<RimPoint>& points) {
  const int from = profile.index(size.inner_radius_mm - kInkBeyondRimsMm);
  const int to = profile.index(size.outer_radius_mm + kInkBeyondRimsMm);
  int darkest = from;
  for (int i = from; i <= to; ++i) {
    if (profile[i] < profile[darkest]) darkest = i;
  }
  const auto above = [&](int i) {  // > 0: lighter than the midway level there
    return profile[i] - (paper.at(profile.radius(i) * ray.direction) + ink) / 2;
  };
  if (above(darkest) >= 0.0) return;
  for (const int step : {1, -1}) {
    int i = darkest;
    while (i + step >= 0 && i + step < profile.count() && above(i + step) < 0.0) i += step;
    if (i + step < 0 || i + step >= profile.count()) continue;
    const double low = above(i);
    const double high = above(i + step);
    const double crossing = profile.radius(i + step * (-low) / (high - low));
    points.push_back({ray.angle, crossing, step > 0 ? 0 : 1});
  }
}

/// First harmonic of the light that is missing on a circle outside the ring; of the contrast.
Eigen::Vector2d tail_behind(const FineProfiles& fine, const PaperPlane& paper, double ink,
                            double radius_mm, const Eigen::Vector2d& centre_mm) {
  Eigen::Vector2d harmonic = Eigen::Vector2d::Zero();
  for (std::size_t k = 0; k < fine.profiles.size(); ++k) {
    const Eigen::Vector2d& direction = fine.rays[k].direction;
    const double radius = radius_mm + centre_mm.dot(direction);
    const Profile& profile = fine.profiles[k];
    const double light = profile[std::min(profile.index(radius), profile.count() - 1)];
    const double white = paper.at(radius * direction);
    harmonic += (white - light) / (white - ink) * direction;
  }
  return harmonic * 2.0 / static_cast<double>(fine.profiles.size());
}

}  // namespace

std::optional<Point<PageMm>> find_ring_roughly(const Sampler& image,
                                               const Affine<ScanPx, PageMm>& scan_from_page,
                                               const Point<PageMm>& expected, const RingSize& size,
                                               double reach_mm) {
  const double middle = (size.outer_radius_mm + size.inner_radius_mm) / 2;
  auto centre = centre_of_dark(image, scan_from_page, expected.vec(), middle, reach_mm);
  if (centre && reach_mm > kWideReachMm) {
    centre = centre_of_dark(image, scan_from_page, *centre, middle, kNearReachMm);
  }
  if (!centre) return std::nullopt;
  return Point<PageMm>::from(*centre);
}

std::optional<RingSighting> find_ring(const Sampler& image,
                                      const Affine<ScanPx, PageMm>& scan_from_page,
                                      const Point<PageMm>& expected, const RingSize& size,
                                      double reach_mm) {
  const double middle = (size.outer_radius_mm + size.inner_radius_mm) / 2;
  const auto rough = find_ring_roughly(image, scan_from_page, expected, size, reach_mm);
  if (!rough) return std::nullopt;
  Eigen::Vector2d centre = rough->vec();

  RingSighting sighting;
  for (int pass = 0; pass < 2; ++pass) {
    const FineProfiles fine = fine_profiles(image, scan_from_page, centre, size);
    if (fine.profiles.size() < kFineRays / 2) return std::nullopt;
    const auto paper = paper_plane(fine, size);
    if (!paper) return std::nullopt;
    const double ink = ink_level(fine);
    if (paper->coefficients[0] - ink < kLeastRingContrast * paper->coefficients[0]) {
      return std::nullopt;
    }
    std::vector<RimPoint> points;
    for (std::size_t k = 0; k < fine.profiles.size(); ++k) {
      add_crossings(fine.profiles[k], fine.rays[k], ink, *paper, size, points);
    }
    const auto fit = fit_rims(points, 2, 2 * kFineRays);
    if (!fit || fit->residual_rms_mm > kMostResidualMm) return std::nullopt;
    const double radius_error =
        (fit->radii_mm[0] + fit->radii_mm[1]) / 2 - middle;  // dot gain cancels in the mean
    if (std::abs(radius_error) > kMostRadiusErrorMm) return std::nullopt;
    centre += fit->centre_mm;
    const bool settled = fit->centre_mm.norm() < kSettledMm;
    sighting.sd_mm = std::sqrt(fit->covariance_mm2.trace() / 2);
    sighting.residual_rms_mm = fit->residual_rms_mm;
    sighting.second_harmonic_mm = (fit->second_harmonic_mm[0] + fit->second_harmonic_mm[1]) / 2;
    sighting.tail = tail_behind(fine, *paper, ink, fit->radii_mm[0] + kTailMm, fit->centre_mm);
    if (settled) break;
  }
  sighting.centre = scan_from_page(Point<PageMm>::from(centre));
  return sighting;
}

}  // namespace versolay
