// Photographs of a sheet, taken by ray casting, through the command that reads scans.
#include "support/photograph.h"

#include <gmock/gmock.h>

#include <cmath>
#include <fstream>
#include <functional>
#include <opencv2/calib3d.hpp>

#include "app/measure.h"
#include "measure/side_reading.h"
#include "support/aruco_tags.h"
#include "support/findings.h"
#include "support/printed_target.h"
#include "target/geometry.h"
#include "target/identity.h"
#include "words/say.h"

namespace versolay {
namespace {

using ::testing::HasSubstr;
using testing_support::ArucoTag;
using testing_support::Camera;
using testing_support::PaperSheet;
using testing_support::PhotographOf;
using testing_support::PrintedTarget;

constexpr int kRasterDpi = 400;

/// Drawn once for all tests.
const PrintedTarget& target() {
  static const PrintedTarget printed(kRasterDpi);
  return printed;
}

PaperSheet punched_sheet() {
  PaperSheet sheet;
  sheet.landed = {0.43, -0.31, 1.2, 0, 0, 0};
  for (const HolePlace& hole : target().geometry.holes) {
    if (hole.kind == HoleKind::punch) sheet.holes.push_back(hole.at.vec());
  }
  return sheet;
}

Camera eight_megapixels() {
  Camera camera;
  camera.width_px = 3264;
  camera.height_px = 2448;
  return camera;
}

cv::Mat1b photograph(const PaperSheet& sheet, Side side, const Camera& camera, int seed) {
  std::mt19937_64 random(static_cast<std::uint64_t>(seed));
  const std::size_t page = side == Side::recto ? 0 : 1;
  return PhotographOf(sheet, side, target().geometry.axis(), target().pages[page], kRasterDpi)
      .taken_by(camera, random);
}

Scan scan_of(const cv::Mat1b& picture) {
  Scan scan;
  scan.file = "photograph.jpg";
  scan.grey.width = picture.cols;
  scan.grey.height = picture.rows;
  scan.grey.pixels.assign(picture.datastart, picture.dataend);
  return scan;
}

class PhotographTest : public testing::Test {
 protected:
  void SetUp() override {
    if (!testing_support::has_program("pdftocairo")) GTEST_SKIP() << "pdftocairo is missing";
  }
};

struct Lens {
  const char* name;
  double tilt_degrees;
  double radial;
};
void PrintTo(const Lens& lens, std::ostream* out) { *out << lens.name; }

class PhotographThrough : public PhotographTest, public testing::WithParamInterface<Lens> {
 protected:
  std::filesystem::path shoot(const PaperSheet& sheet, Side side, const Camera& camera,
                              const char* name) {
    const auto jpeg = PhotographOf::as_jpeg(photograph(sheet, side, camera, 3), camera);
    std::ofstream out(scratch_ / name, std::ios::binary);
    out.write(reinterpret_cast<const char*>(jpeg.data()),
              static_cast<std::streamsize>(jpeg.size()));
    return scratch_ / name;
  }
  testing_support::ScratchFolder scratch_;
};

// Askew by different amounts on the two sides. Limits: four times what the study finds
// (bench/README.md).
TEST_P(PhotographThrough, IsReadForWhatItIs) {
  const PaperSheet sheet = punched_sheet();
  Camera camera = eight_megapixels();
  camera.radial = GetParam().radial;
  camera.tilt_about_x = GetParam().tilt_degrees;
  MeasureRequest request;
  request.scans.push_back(shoot(sheet, Side::recto, camera, "front.jpg"));
  camera.tilt_about_x = -GetParam().tilt_degrees / 2;
  camera.tilt_about_y = GetParam().tilt_degrees / 2;
  camera.turned = -90;
  request.scans.push_back(shoot(sheet, Side::verso, camera, "back.jpg"));
  request.out = scratch_ / "readings.json";
  request.overlay = scratch_ / "overlays";
  const Readings readings = run_measure(request, {});
  ASSERT_EQ(readings.sheets.size(), 1u);
  const SheetReading& read = readings.sheets[0];
  EXPECT_EQ(to_string(read.datum), "punched holes and paper edges");
  EXPECT_TRUE(read.photographed);
  EXPECT_NEAR(read.registration.dx_mm, sheet.landed.dx_mm, 0.05);
  EXPECT_NEAR(read.registration.dy_mm, sheet.landed.dy_mm, 0.05);
  EXPECT_NEAR(read.registration.rotation_mrad, sheet.landed.rotation_mrad, 0.3);
  for (int c = 0; c < 3; ++c) {
    EXPECT_LT(std::abs(read.registration.vec()[c] - sheet.landed.vec()[c]),
              3.5 * std::sqrt(read.covariance(c, c)));
  }
}

INSTANTIATE_TEST_SUITE_P(Lenses, PhotographThrough,
                         testing::Values(Lens{"two_degrees", 2.0, 0.005},
                                         Lens{"ten_degrees", 10.0, 0.0},
                                         Lens{"barrel", 3.0, -0.02}),
                         [](const auto& tested) { return std::string(tested.param.name); });

/// Corners of the tags in the picture and on the page.
struct TagCorners {
  std::vector<cv::Point2d> picture;
  std::vector<cv::Point2d> page;
};

/// @param shift  by how many corners ArUco's order is off; it is the same for all tags.
TagCorners corners_of(const std::vector<ArucoTag>& tags, std::size_t shift) {
  TagCorners corners;
  for (const Mark& mark : target().geometry.marks) {
    if (mark.kind != MarkKind::tag || mark.side != Side::recto) continue;
    for (const ArucoTag& tag : tags) {
      const auto meaning = tag_meaning(tag.number);
      if (!meaning || meaning->position != mark.number) continue;
      const double half = 4 * target().geometry.tag_module_mm;  // 8 modules of black square
      const std::array<cv::Point2d, 4> square = {{{mark.at.x - half, mark.at.y - half},
                                                  {mark.at.x + half, mark.at.y - half},
                                                  {mark.at.x + half, mark.at.y + half},
                                                  {mark.at.x - half, mark.at.y + half}}};
      for (std::size_t k = 0; k < 4; ++k) {
        corners.picture.emplace_back(tag.corners[k].x, tag.corners[k].y);
        corners.page.push_back(square[(k + shift) % 4]);
      }
    }
  }
  return corners;
}

/// Page to picture by OpenCV alone: a plane seen through a straight lens.
cv::Mat homography_of(const std::vector<ArucoTag>& tags) {
  cv::Mat best;
  double least = 1e9;
  for (std::size_t shift = 0; shift < 4; ++shift) {
    const TagCorners corners = corners_of(tags, shift);
    const cv::Mat picture_from_page = cv::findHomography(corners.page, corners.picture);
    std::vector<cv::Point2d> back;
    cv::perspectiveTransform(corners.page, back, picture_from_page);
    const double error = cv::norm(back, corners.picture, cv::NORM_L2);
    if (error < least) {
      least = error;
      best = picture_from_page;
    }
  }
  return best;
}

TEST_F(PhotographTest, OpenCvsPoseOfTheTagsPutsTheRingsWhereTheyAreSeen) {
  PaperSheet sheet = punched_sheet();
  Camera camera;  // with a straight lens; the paper is flat
  camera.tilt_about_x = 6.0;
  camera.tilt_about_y = -4.0;
  const cv::Mat1b picture = photograph(sheet, Side::recto, camera, 5);
  const auto reading = read_side(scan_of(picture));
  ASSERT_TRUE(reading.ok()) << reading.refusal();
  ASSERT_TRUE(reading.value().camera);
  const std::vector<ArucoTag> tags = testing_support::aruco_tags(picture);
  ASSERT_GE(tags.size(), 4u);
  const cv::Mat picture_from_page = homography_of(tags);
  std::vector<cv::Point2d> page, predicted;
  for (const RingUse& ring : reading.value().rings) page.emplace_back(ring.page.x, ring.page.y);
  cv::perspectiveTransform(page, predicted, picture_from_page);
  double squares = 0.0;
  for (std::size_t i = 0; i < page.size(); ++i) {
    const Point<ScanPx>& seen = reading.value().rings[i].seen;
    squares += std::pow(seen.x - predicted[i].x, 2) + std::pow(seen.y - predicted[i].y, 2);
  }
  EXPECT_LT(std::sqrt(squares / (2.0 * static_cast<double>(page.size()))), 0.1);  // px, one axis
}

struct BadPhotograph {
  const char* name;
  std::function<void(Camera&, PaperSheet&)> spoil;
  std::vector<std::string> codes;
  const char* remedy;
};
void PrintTo(const BadPhotograph& bad, std::ostream* out) { *out << bad.name; }

class PhotographToRefuse : public PhotographTest,
                           public testing::WithParamInterface<BadPhotograph> {};

TEST_P(PhotographToRefuse, IsRefusedWithTheReason) {
  PaperSheet sheet = punched_sheet();
  Camera camera = eight_megapixels();
  camera.tilt_about_x = 3;
  GetParam().spoil(camera, sheet);
  const auto reading = read_side(scan_of(photograph(sheet, Side::recto, camera, 4)));
  ASSERT_FALSE(reading);
  EXPECT_THAT(GetParam().codes, testing::Contains(reading.refusal().code));
  EXPECT_THAT(words::say(reading.refusal()), HasSubstr(GetParam().remedy));
}

INSTANTIATE_TEST_SUITE_P(Reasons, PhotographToRefuse,
                         testing::Values(BadPhotograph{"too_small",
                                                       [](Camera& c, PaperSheet&) {
                                                         c.width_px = 1632;
                                                         c.height_px = 1224;
                                                       },
                                                       {"photograph_too_small", "too_few_marks"},
                                                       "photograph"},
                                         BadPhotograph{"from_the_side",
                                                       [](Camera& c, PaperSheet&) {
                                                         c.tilt_about_x = 20;
                                                         c.height_mm = 330;
                                                       },
                                                       {"photograph_askew"},
                                                       "straight above"},
                                         BadPhotograph{
                                             "curled",
                                             [](Camera&, PaperSheet& s) { s.bulge_mm = 15; },
                                             {"photograph_not_flat", "too_few_marks"},
                                             "flat"}),
                         [](const auto& tested) { return std::string(tested.param.name); });

}  // namespace
}  // namespace versolay
