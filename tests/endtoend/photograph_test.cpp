// Photographs of a sheet, taken by ray casting, through the command that reads scans.
#include "support/photograph.h"

#include <gmock/gmock.h>

#include <cmath>
#include <fstream>

#include "app/measure.h"
#include "app/target.h"
#include "support/pdf_render.h"
#include "target/geometry.h"

namespace versolay {
namespace {

using ::testing::Contains;
using ::testing::Field;
using ::testing::HasSubstr;
using testing_support::Camera;
using testing_support::PaperSheet;
using testing_support::PhotographOf;

constexpr int kRasterDpi = 400;

struct Lens {
  const char* name;
  double tilt_degrees;
  double radial;
};
void PrintTo(const Lens& lens, std::ostream* out) { *out << lens.name; }

class PhotographTest : public testing::TestWithParam<Lens> {
 protected:
  void shoot(const PaperSheet& sheet, Side side, const TargetGeometry& geometry,
             const Camera& camera, const char* name, std::mt19937_64& random) {
    const Raster page =
        testing_support::render(testing_support::Renderer::pdftocairo, scratch_ / "target.pdf",
                                side == Side::recto ? 1 : 2, kRasterDpi);
    const auto jpeg =
        PhotographOf(sheet, side, geometry.axis(), page, kRasterDpi).taken_by(camera, random);
    std::ofstream out(scratch_ / name, std::ios::binary);
    out.write(reinterpret_cast<const char*>(jpeg.data()),
              static_cast<std::streamsize>(jpeg.size()));
  }
  testing_support::ScratchFolder scratch_;
};

// Askew by different amounts on the two sides. Limits: twice what the study finds
// (bench/README.md).
TEST_P(PhotographTest, IsReadForWhatItIs) {
  if (!testing_support::has_program("pdftocairo")) GTEST_SKIP() << "pdftocairo is missing";
  const TargetGeometry geometry = make_target({parse_paper("a4"),
                                               Turn::long_edge,
                                               1,
                                               "",
                                               "K7QX",
                                               scratch_ / "target.pdf",
                                               {},
                                               {},
                                               false})
                                      .geometry;
  std::mt19937_64 random(3);
  PaperSheet sheet;
  sheet.landed = {0.43, -0.31, 1.2, 0, 0, 0};
  for (const HolePlace& hole : geometry.holes) {
    if (hole.kind == HoleKind::punch) sheet.holes.push_back(hole.at.vec());
  }
  Camera camera;
  camera.width_px = 3200;
  camera.height_px = 2400;
  camera.radial = GetParam().radial;
  camera.tilt_about_x = GetParam().tilt_degrees;
  shoot(sheet, Side::recto, geometry, camera, "front.jpg", random);
  camera.tilt_about_x = -GetParam().tilt_degrees / 2;
  camera.tilt_about_y = GetParam().tilt_degrees / 2;
  camera.turned = -90;
  shoot(sheet, Side::verso, geometry, camera, "back.jpg", random);

  MeasureRequest request;
  request.scans = {scratch_ / "back.jpg", scratch_ / "front.jpg"};
  request.out = scratch_ / "readings.json";
  const auto readings = measure(request, {});
  ASSERT_TRUE(readings) << readings.refusal().message;
  ASSERT_EQ(readings.value().sheets.size(), 1u);
  const SheetReading& read = readings.value().sheets[0];
  EXPECT_THAT(read.datum, HasSubstr("photograph"));
  EXPECT_THAT(read.warnings, Contains(Field(&Notice::code, "photograph")));
  EXPECT_NEAR(read.registration.dx_mm, sheet.landed.dx_mm, 0.06);
  EXPECT_NEAR(read.registration.dy_mm, sheet.landed.dy_mm, 0.06);
  EXPECT_NEAR(read.registration.rotation_mrad, sheet.landed.rotation_mrad, 0.4);
  for (int c = 0; c < 3; ++c) {
    EXPECT_LT(std::abs(read.registration.vec()[c] - sheet.landed.vec()[c]),
              3.5 * std::sqrt(read.covariance(c, c)));
  }
}

INSTANTIATE_TEST_SUITE_P(Lenses, PhotographTest,
                         testing::Values(Lens{"square_on", 0.0, 0.005}, Lens{"askew", 10.0, 0.0},
                                         Lens{"barrel", 3.0, -0.02}),
                         [](const auto& tested) { return std::string(tested.param.name); });

}  // namespace
}  // namespace versolay
