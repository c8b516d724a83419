// What is a scan and what a photograph, from the places of rings alone. Scanners and cameras are
// written out here: a pinhole, a lens, a carriage; nothing of the estimator.
#include <gtest/gtest.h>

#include <Eigen/Geometry>
#include <cmath>
#include <functional>
#include <random>

#include "measure/page_view.h"
#include "target/geometry.h"

namespace versolay {
namespace {

using Random = std::mt19937_64;

double between(double low, double high, Random& random) {
  return std::uniform_real_distribution<>(low, high)(random);
}

std::vector<Point<PageMm>> ring_places() {
  std::vector<Point<PageMm>> places;
  for (const Mark& mark : target_geometry(parse_paper("a4"), Turn::long_edge).marks) {
    if (mark.kind == MarkKind::ring && mark.side == Side::recto) places.push_back(mark.at);
  }
  return places;
}

/// With noise of the rings, and `outliers` that are off by up to half a millimetre.
std::vector<PagePair> seen_through(
    const std::function<Eigen::Vector2d(const Eigen::Vector2d&)>& picture_from_page,
    double noise_px, int outliers, Random& random) {
  std::normal_distribution<> noise(0.0, noise_px);
  std::vector<PagePair> pairs;
  for (const Point<PageMm>& place : ring_places()) {
    const Eigen::Vector2d seen = picture_from_page(place.vec());
    pairs.push_back({{seen.x() + noise(random), seen.y() + noise(random)}, place});
  }
  for (int i = 0; i < outliers; ++i) {
    auto& pair = pairs[static_cast<std::size_t>(between(0, double(pairs.size()) - 1, random))];
    pair.scan.x += between(-6, 6, random);
    pair.scan.y += between(-6, 6, random);
  }
  return pairs;
}

/// A flatbed scanner at 300 dpi whose faults are several times the usual ones.
std::vector<PagePair> scanned(double worse, Random& random) {
  constexpr double kPxPerMm = 300 / 25.4;
  const double sag = between(-0.06, 0.06, random) * worse;      // mm at the ends of the sensor
  const double stretch = between(-0.04, 0.04, random) * worse;  // even order
  const double lens = between(-0.04, 0.04, random) * worse;     // odd order
  const double wobble = between(0, 0.03, random) * worse;
  const double slip = between(-0.05, 0.05, random) * worse;  // of the carriage, over the bed
  const double period = between(8, 120, random);
  const double phase = between(0, 6.28, random);
  const Eigen::Rotation2Dd turned(M_PI / 2 * std::floor(between(0, 4, random)) +
                                  between(-0.1, 0.1, random));
  return seen_through(
      [&](const Eigen::Vector2d& p) {
        const Eigen::Vector2d bed = turned * p;
        const double u = bed.x() / 110;
        const double v = bed.y() / 150;
        const Eigen::Vector2d off(stretch * u * u + lens * u * u * u,
                                  sag * u * u + slip * v * v * v +
                                      wobble * std::sin(2 * M_PI * bed.y() / period + phase));
        return Eigen::Vector2d(kPxPerMm * (bed + off) + Eigen::Vector2d(1300, 1800));
      },
      0.1, 5, random);
}

/// Of a telephone from about 30 cm; the paper bulges a little.
std::vector<PagePair> photographed(double tilt_degrees, Random& random) {
  const double direction = between(0, 2 * M_PI, random);
  const double tilt = tilt_degrees * M_PI / 180;
  const Eigen::Matrix3d camera_from_world =
      (Eigen::AngleAxisd(between(-M_PI, M_PI, random), Eigen::Vector3d::UnitZ()) *
       Eigen::AngleAxisd(tilt, Eigen::Vector3d(std::cos(direction), std::sin(direction), 0)))
          .toRotationMatrix();
  const double height = between(280, 400, random);
  const double k1 = between(-0.02, 0.02, random);
  const double bulge = between(-1, 1, random);
  return seen_through(
      [&](const Eigen::Vector2d& p) {
        const double up = bulge * (1 - std::pow(p.y() / 148, 2));
        const Eigen::Vector3d q =
            camera_from_world * Eigen::Vector3d(p.x(), p.y(), -up) + Eigen::Vector3d(0, 0, height);
        const Eigen::Vector2d ideal = 3000 * q.head<2>() / q.z();
        const double r2 = ideal.squaredNorm() / (2500.0 * 2500.0);
        return Eigen::Vector2d(ideal * (1 + k1 * r2) + Eigen::Vector2d(2000, 1500));
      },
      0.1, 5, random);
}

PictureKind kind_of(const std::vector<PagePair>& rings, int width_px, int height_px) {
  const auto view = PageView::from_rings(rings, width_px, height_px);
  EXPECT_TRUE(view);
  return view ? view->kind() : PictureKind::scan;
}

TEST(PageView, NoScannerIsTakenForACamera) {
  Random random(1);
  int photographs = 0;
  for (int i = 0; i < 600; ++i) {
    const double worse = between(0, 6, random);
    photographs += kind_of(scanned(worse, random), 2600, 3600) == PictureKind::photograph ? 1 : 0;
  }
  EXPECT_EQ(photographs, 0);
}

TEST(PageView, CamerasAreKnownFromTwoDegreesUpwards) {
  Random random(2);
  int scans = 0;
  for (int i = 0; i < 200; ++i) {
    scans += kind_of(photographed(between(2, 15, random), random), 4000, 3000) == PictureKind::scan
                 ? 1
                 : 0;
  }
  EXPECT_EQ(scans, 0);
}

}  // namespace
}  // namespace versolay
