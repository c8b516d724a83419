// How well photographs are measured: simulated sheets, photographed as a telephone does it.
//   measure_photograph_study [SHEETS]
// prints one line for each kind of photograph: errors against the truth, and how often the stated
// uncertainty covers it. Table and remarks: tests/bench/README.md.
#include <fmt/format.h>

#include <fstream>
#include <functional>

#include "app/measure.h"
#include "app/target.h"
#include "support/pdf_render.h"
#include "support/photograph.h"
#include "target/geometry.h"

namespace versolay {
namespace {

using testing_support::Camera;
using testing_support::PaperSheet;
using testing_support::PhotographOf;

constexpr int kRasterDpi = 600;

struct Cell {
  std::string name;
  std::function<void(Camera&, PaperSheet&, std::mt19937_64&)> change;
};

double between(double low, double high, std::mt19937_64& random) {
  return std::uniform_real_distribution<>(low, high)(random);
}

void tilt(Camera& camera, double degrees, std::mt19937_64& random) {
  const double direction = between(0, 2 * M_PI, random);
  camera.tilt_about_x = degrees * std::cos(direction);
  camera.tilt_about_y = degrees * std::sin(direction);
}

std::vector<Cell> cells() {
  const auto radial = [](double share) {
    return [share](Camera& c, PaperSheet&, std::mt19937_64& random) {
      tilt(c, 2, random);
      c.radial = share;
    };
  };
  const auto tilted = [](double degrees) {
    return [degrees](Camera& c, PaperSheet&, std::mt19937_64& random) {
      tilt(c, degrees, random);
      c.radial = 0.005;
    };
  };
  return {
      {"square-on, plain lens", tilted(0)},
      {"2 degrees askew", tilted(2)},
      {"5 degrees askew", tilted(5)},
      {"10 degrees askew", tilted(10)},
      {"barrel 2 %", radial(-0.02)},
      {"cushion 2 %", radial(0.02)},
      {"paper bulges by 2 mm",
       [](Camera& c, PaperSheet& s, std::mt19937_64& random) {
         tilt(c, 3, random);
         s.bulge_mm = between(-2, 2, random);
       }},
      {"blur 2 px, noise 6, JPEG 75",
       [](Camera& c, PaperSheet&, std::mt19937_64& random) {
         tilt(c, 3, random);
         c.blur_px = 2.0;
         c.noise = 6.0;
         c.jpeg_quality = 75;
       }},
      {"thin paper, 0.1 mm, 5 degrees",
       [](Camera& c, PaperSheet& s, std::mt19937_64& random) {
         tilt(c, 5, random);
         s.thickness_mm = 0.1;
       }},
      {"eight pricks, 3 degrees",
       [](Camera& c, PaperSheet& s, std::mt19937_64& random) {
         tilt(c, 3, random);
         s.hole_radius_mm = 0.45;
       }},
  };
}

class Study {
 public:
  Study() {
    const TargetReport target =
        make_target({parse_paper("a4"), Turn::long_edge, 1, "", "K7QX", pdf(), {}, {}, true});
    geometry_ = target.geometry;
    recto_ = testing_support::render(testing_support::Renderer::pdftocairo, pdf(), 1, kRasterDpi);
    verso_ = testing_support::render(testing_support::Renderer::pdftocairo, pdf(), 2, kRasterDpi);
  }

  void run(const Cell& cell, int sheets) {
    double squares_um[2] = {0, 0};
    double rotation_squares = 0.0;
    double stated_um = 0.0;
    int within_68 = 0;
    int within_95 = 0;
    int read = 0;
    std::mt19937_64 random(2026);
    for (int i = 0; i < sheets; ++i) {
      PaperSheet sheet;
      sheet.landed = {between(-1, 1, random), between(-1, 1, random), between(-2, 2, random)};
      Camera front;
      cell.change(front, sheet, random);
      Camera back;
      cell.change(back, sheet, random);
      const HoleKind kind = sheet.hole_radius_mm > 1 ? HoleKind::punch : HoleKind::prick;
      for (const HolePlace& hole : geometry_.holes) {
        if (hole.kind != kind) continue;
        sheet.holes.push_back(hole.at.vec() + Eigen::Vector2d(between(-0.4, 0.4, random),
                                                              between(-0.4, 0.4, random)));
      }
      shoot(sheet, Side::recto, recto_, front, "front.jpg", random);
      shoot(sheet, Side::verso, verso_, back, "back.jpg", random);
      MeasureRequest request;
      request.scans = {scratch_ / "front.jpg", scratch_ / "back.jpg"};
      request.out = scratch_ / "readings.json";
      request.replace = true;
      const auto readings = measure(request, {});
      if (!readings) {
        fmt::print("{}: not read: {}\n", cell.name, readings.refusal().message);
        continue;
      }
      ++read;
      const SheetReading& got = readings.value().sheets.front();
      for (int c = 0; c < 3; ++c) {
        const double error = got.registration.vec()[c] - sheet.landed.vec()[c];
        const double z = std::abs(error) / std::sqrt(got.covariance(c, c));
        within_68 += z < 1.0 ? 1 : 0;
        within_95 += z < 1.96 ? 1 : 0;
        if (c < 2) {
          squares_um[c] += error * error * 1e6;
          stated_um += std::sqrt(got.covariance(c, c)) * 1e3;
        } else {
          rotation_squares += error * error;
        }
      }
    }
    const double n = std::max(1, read);
    fmt::print("| {} | {} | {:.0f} | {:.0f} | {:.3f} | {:.0f} | {:.0f} % | {:.0f} % |\n", cell.name,
               read, std::sqrt(squares_um[0] / n), std::sqrt(squares_um[1] / n),
               std::sqrt(rotation_squares / n), stated_um / (2 * n), 100 * within_68 / (3 * n),
               100 * within_95 / (3 * n));
    std::fflush(stdout);
  }

 private:
  std::filesystem::path pdf() const { return scratch_ / "target.pdf"; }

  void shoot(const PaperSheet& sheet, Side side, const Raster& page, const Camera& camera,
             const char* name, std::mt19937_64& random) const {
    const auto jpeg =
        PhotographOf(sheet, side, geometry_.axis(), page, kRasterDpi).taken_by(camera, random);
    std::ofstream out(scratch_ / name, std::ios::binary);
    out.write(reinterpret_cast<const char*>(jpeg.data()),
              static_cast<std::streamsize>(jpeg.size()));
  }

  testing_support::ScratchFolder scratch_;
  TargetGeometry geometry_;
  Raster recto_;
  Raster verso_;
};

}  // namespace
}  // namespace versolay

int main(int argc, char** argv) {
  const int sheets = argc > 1 ? std::stoi(argv[1]) : 20;
  versolay::Study study;
  fmt::print(
      "| photograph | sheets | dx um | dy um | rotation mrad | stated um | within 1 u | within "
      "95 % |\n|---|---|---|---|---|---|---|---|\n");
  for (const versolay::Cell& cell : versolay::cells()) study.run(cell, sheets);
}
