#include "measure/tags.h"

#include <apriltag/apriltag.h>
#include <apriltag/common/homography.h>
#include <apriltag/tag25h9.h>
#include <apriltag/tag36h11.h>

#include <memory>

#include "target/waste_geometry.h"

namespace versolay {
namespace {

template <class T, void (*Free)(T*)>
struct Deleter {
  void operator()(T* t) const { Free(t); }
};
using Family = std::unique_ptr<apriltag_family_t, Deleter<apriltag_family_t, tag36h11_destroy>>;
using PassFamily = std::unique_ptr<apriltag_family_t, Deleter<apriltag_family_t, tag25h9_destroy>>;
using Detector =
    std::unique_ptr<apriltag_detector_t, Deleter<apriltag_detector_t, apriltag_detector_destroy>>;
using Detections = std::unique_ptr<zarray_t, Deleter<zarray_t, apriltag_detections_destroy>>;

constexpr int kModules = 8;
constexpr double kTargetTagModuleMm = 0.9;
constexpr int kWrongModulesAllowed = 1;
constexpr float kLeastMargin = 15.0F;  // below it, texture is taken for a tag now and then

/// A tag of any family.
struct Seen {
  int number = 0;
  std::array<Point<ScanPx>, 4> corners;
};

Seen seen_of(const apriltag_detection_t& detection, Reduction by) {
  // The library's tag frame: the black square is [-1, 1] x [-1, 1], y down; its pixel frame has
  // the origin at the corner of the image, as ours has.
  constexpr std::array<std::array<double, 2>, 4> kCorners = {
      {{-1.0, -1.0}, {1.0, -1.0}, {1.0, 1.0}, {-1.0, 1.0}}};
  Seen seen{detection.id, {}};
  for (std::size_t i = 0; i < kCorners.size(); ++i) {
    double x = 0.0;
    double y = 0.0;
    homography_project(detection.H, kCorners[i][0], kCorners[i][1], &x, &y);
    seen.corners[i] = {x * by.across, y * by.down};
  }
  return seen;
}

std::vector<Seen> tags_of_family(apriltag_family_t& family, const GreyImage& reduced,
                                 Reduction by) {
  const Detector detector(apriltag_detector_create());
  apriltag_detector_add_family_bits(detector.get(), &family, kWrongModulesAllowed);
  detector->quad_decimate = 1.0F;
  detector->nthreads = 1;
  image_u8_t image{reduced.width, reduced.height, reduced.width,
                   const_cast<std::uint8_t*>(reduced.pixels.data())};
  const Detections detections(apriltag_detector_detect(detector.get(), &image));
  std::vector<Seen> found;
  for (int i = 0; i < zarray_size(detections.get()); ++i) {
    apriltag_detection_t* detection = nullptr;
    zarray_get(detections.get(), i, &detection);
    if (detection->decision_margin >= kLeastMargin) found.push_back(seen_of(*detection, by));
  }
  return found;
}

Point<ScanPx> middle_of(const std::array<Point<ScanPx>, 4>& corners) {
  return {(corners[0].x + corners[1].x + corners[2].x + corners[3].x) / 4,
          (corners[0].y + corners[1].y + corners[2].y + corners[3].y) / 4};
}

/// False for quadrangles that the library's perspective sends to infinity or to a line.
bool has_size(const TagSighting& tag) {
  const Eigen::Vector2d px_per_mm = tag.px_per_mm();
  return px_per_mm.allFinite() && px_per_mm.minCoeff() > 0;
}

}  // namespace

Point<ScanPx> TagSighting::centre() const { return middle_of(corners); }
Point<ScanPx> PassTagSighting::centre() const { return middle_of(corners); }

double TagSighting::side_mm() const {
  return kModules * (meaning.production ? kWasteTagModuleMm : kTargetTagModuleMm);
}

Eigen::Vector2d TagSighting::px_per_mm() const {
  const auto side = [&](std::size_t from, std::size_t to) -> Eigen::Vector2d {
    return (corners[to].vec() - corners[from].vec()) / side_mm();
  };
  Eigen::Matrix2d scan_from_tag;
  scan_from_tag << (side(0, 1) + side(3, 2)) / 2, (side(0, 3) + side(1, 2)) / 2;
  return scan_from_tag.rowwise().norm();
}

std::vector<TagSighting> find_tags(const GreyImage& reduced, Reduction by) {
  const Family family(tag36h11_create());
  std::vector<TagSighting> sightings;
  for (const Seen& seen : tags_of_family(*family, reduced, by)) {
    const auto meaning = tag_meaning(seen.number);
    if (!meaning) continue;
    const TagSighting sighting{*meaning, seen.corners};
    if (has_size(sighting)) sightings.push_back(sighting);
  }
  return sightings;
}

std::vector<PassTagSighting> find_pass_tags(const GreyImage& reduced, Reduction by) {
  const PassFamily family(tag25h9_create());
  std::vector<PassTagSighting> sightings;
  for (const Seen& seen : tags_of_family(*family, reduced, by)) {
    if (const auto meaning = pass_tag_meaning(seen.number)) {
      sightings.push_back({*meaning, seen.corners});
    }
  }
  return sightings;
}

}  // namespace versolay
