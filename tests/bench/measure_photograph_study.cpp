// How well photographs are measured: simulated sheets, photographed as a telephone does it.
//   measure_photograph_study [SHEETS [PART OF A NAME]]
// prints one line for each kind of photograph: errors against the truth, and how often the stated
// uncertainty covers it; on the error stream, every sheet. Table and remarks: bench/README.md.
#include <fmt/format.h>

#include <fstream>
#include <functional>

#include "app/measure.h"
#include "support/photograph.h"
#include "support/printed_target.h"
#include "target/geometry.h"
#include "words/say.h"

namespace versolay {
namespace {

using testing_support::Camera;
using testing_support::PaperSheet;
using testing_support::PhotographOf;

constexpr int kRasterDpi = 600;

struct Cell {
  std::string name;
  std::function<void(Camera&, std::mt19937_64&)> camera;  // of each photograph
  std::function<void(PaperSheet&)> paper = [](PaperSheet&) {};
  bool holes = true;
};

double between(double low, double high, std::mt19937_64& random) {
  return std::uniform_real_distribution<>(low, high)(random);
}

void tilt(Camera& camera, double degrees, std::mt19937_64& random) {
  const double direction = between(0, 2 * M_PI, random);
  camera.tilt_about_x = degrees * std::cos(direction);
  camera.tilt_about_y = degrees * std::sin(direction);
}

/// What differs between one photograph and the next of an ordinary telephone, held by hand.
void by_hand(Camera& camera, std::mt19937_64& random) {
  tilt(camera, between(0, 5, random), random);
  camera.height_mm = between(290, 330, random);
  camera.radial = between(-0.01, 0.01, random);
  camera.radial4 = between(-0.005, 0.005, random);
  camera.axis_off_px = {between(-20, 20, random), between(-20, 20, random)};
  camera.turned = between(0, 1, random) < 0.5 ? 90 : -90;
  camera.turned += between(-3, 3, random);
  camera.blur_px = between(0.6, 1.2, random);
  camera.shaken_px = between(0, 1.5, random);
}

std::vector<Cell> cells() {
  const auto ordinary_and = [](const auto& change) {
    return [change](Camera& camera, std::mt19937_64& random) {
      by_hand(camera, random);
      change(camera, random);
    };
  };
  const auto tilted = [&](double degrees) {
    return ordinary_and([degrees](Camera& c, std::mt19937_64& r) { tilt(c, degrees, r); });
  };
  const auto bulging = [](double mm) { return [mm](PaperSheet& s) { s.bulge_mm = mm; }; };
  return {
      {"ordinary: 12 megapixels, by hand, to 5 degrees askew", by_hand},
      {"ordinary, paper edges only", by_hand, [](PaperSheet&) {}, false},
      {"10 degrees askew", tilted(10)},
      {"15 degrees askew", tilted(15)},
      {"longer lens (52 mm) from twice as far", ordinary_and([](Camera& c, std::mt19937_64&) {
         c.focal_of_half_diagonal *= 2;
         c.height_mm *= 2;
       })},
      {"8 megapixels, a little farther", ordinary_and([](Camera& c, std::mt19937_64&) {
         c.width_px = 3264;
         c.height_px = 2448;
         c.height_mm *= 1.1;
       })},
      {"3 megapixels", ordinary_and([](Camera& c, std::mt19937_64&) {
         c.width_px = 2048;
         c.height_px = 1536;
       })},
      {"barrel 3 %", ordinary_and([](Camera& c, std::mt19937_64&) { c.radial = -0.03; })},
      {"blur 2 px, noise 6, JPEG 75", ordinary_and([](Camera& c, std::mt19937_64&) {
         c.blur_px = 2.0;
         c.noise = 6.0;
         c.jpeg_quality = 75;
       })},
      {"blur 3 px", ordinary_and([](Camera& c, std::mt19937_64&) { c.blur_px = 3.0; })},
      {"shaken over 5 px", ordinary_and([](Camera& c, std::mt19937_64&) { c.shaken_px = 2.0; })},
      {"shaken over 9 px", ordinary_and([](Camera& c, std::mt19937_64&) { c.shaken_px = 4.0; })},
      {"lens looks 3 % past the middle of the picture",
       ordinary_and([](Camera& c, std::mt19937_64&) {
         c.axis_off_px = {120, -90};
       })},
      {"paper bulges by 2 mm", by_hand, bulging(2)},
      {"ends of the paper 3 mm up", by_hand, bulging(-3)},
      {"ends of the paper 8 mm up", by_hand, bulging(-8)},
      {"thin paper (0.1 mm), dark walls", by_hand,
       [](PaperSheet& s) {
         s.thickness_mm = 0.1;
         s.wall = 0.2;
       }},
      {"thick card (0.35 mm), light walls", by_hand,
       [](PaperSheet& s) {
         s.thickness_mm = 0.35;
         s.wall = 0.6;
       }},
      {"eight pricks", by_hand, [](PaperSheet& s) { s.hole_radius_mm = 0.45; }},
  };
}

/// Errors of the sheets of a cell.
struct Tally {
  Eigen::Array3d squares = Eigen::Array3d::Zero();
  double stated_mm = 0.0;
  int within_68 = 0;
  int within_95 = 0;
  int read = 0;
  int sheets = 0;

  void add(const SheetReading& got, const Registration& truth) {
    const Eigen::Array3d error = (got.registration.vec() - truth.vec()).head<3>();
    const Eigen::Array3d sd = got.covariance.diagonal().head<3>().array().sqrt();
    squares += error.square();
    stated_mm += (sd[0] + sd[1]) / 2;
    within_68 += static_cast<int>(((error / sd).abs() < 1.0).count());
    within_95 += static_cast<int>(((error / sd).abs() < 1.96).count());
    ++read;
    fmt::print(stderr, "  {:+.3f} {:+.3f} {:+.3f}   sd {:.3f} {:.3f} {:.3f}  {}\n", error[0],
               error[1], error[2], sd[0], sd[1], sd[2], to_string(got.datum));
  }

  std::string line(const std::string& name) const {
    const double n = std::max(1, read);
    const Eigen::Array3d rms = (squares / n).sqrt();
    return fmt::format("| {} | {} of {} | {:.0f}, {:.0f} | {:.3f} | {:.0f} | {:.0f} | {:.0f} |\n",
                       name, read, sheets, rms[0] * 1e3, rms[1] * 1e3, rms[2], stated_mm / n * 1e3,
                       100 * within_68 / (3 * n), 100 * within_95 / (3 * n));
  }
};

class Study {
 public:
  void run(const Cell& cell, int sheets) {
    std::mt19937_64 random(2026);
    Tally tally;
    fmt::print(stderr, "{}\n", cell.name);
    for (int i = 0; i < sheets; ++i) {
      const PaperSheet sheet = sheet_of(cell, random);
      ++tally.sheets;
      const Readings readings = photographed(sheet, cell, random);
      for (const RejectedInput& r : readings.rejected)
        fmt::print(stderr, "  {}\n", words::say(r.why));
      if (!readings.sheets.empty()) tally.add(readings.sheets.front(), sheet.landed);
    }
    fmt::print("{}", tally.line(cell.name));
    std::fflush(stdout);
  }

 private:
  PaperSheet sheet_of(const Cell& cell, std::mt19937_64& random) const {
    PaperSheet sheet;
    sheet.landed = {between(-1, 1, random), between(-1, 1, random), between(-2, 2, random)};
    sheet.thickness_mm = between(0.1, 0.3, random);
    sheet.wall = between(0.2, 0.6, random);
    sheet.bulge_mm = between(-1, 1, random);
    cell.paper(sheet);
    const HoleKind kind = sheet.hole_radius_mm > 1 ? HoleKind::punch : HoleKind::prick;
    for (const HolePlace& hole : target_.geometry.holes) {
      const Eigen::Vector2d off(between(-0.4, 0.4, random), between(-0.4, 0.4, random));
      if (cell.holes && hole.kind == kind) sheet.holes.push_back(hole.at.vec() + off);
    }
    return sheet;
  }

  Readings photographed(const PaperSheet& sheet, const Cell& cell, std::mt19937_64& random) const {
    MeasureRequest request;
    request.out = scratch_ / "readings.json";
    request.replace = true;
    for (const Side side : {Side::recto, Side::verso}) {
      Camera camera;
      cell.camera(camera, random);
      const std::size_t index = side == Side::recto ? 0 : 1;
      const PhotographOf photograph(sheet, side, target_.geometry.axis(), target_.pages[index],
                                    kRasterDpi);
      const auto jpeg = PhotographOf::as_jpeg(photograph.taken_by(camera, random), camera);
      request.scans.push_back(scratch_ / (index == 0 ? "front.jpg" : "back.jpg"));
      std::ofstream out(request.scans.back(), std::ios::binary);
      out.write(reinterpret_cast<const char*>(jpeg.data()),
                static_cast<std::streamsize>(jpeg.size()));
    }
    return run_measure(request, {});
  }

  testing_support::ScratchFolder scratch_;
  testing_support::PrintedTarget target_{kRasterDpi};
};

}  // namespace
}  // namespace versolay

int main(int argc, char** argv) {
  const int sheets = argc > 1 ? std::stoi(argv[1]) : 20;
  const std::string wanted = argc > 2 ? argv[2] : "";
  versolay::Study study;
  fmt::print(
      "| photographs | read | dx, dy um | rotation mrad | stated um | within 1 sd % | within 95 % "
      "|\n|---|---|---|---|---|---|---|\n");
  for (const versolay::Cell& cell : versolay::cells()) {
    if (cell.name.find(wanted) != std::string::npos) study.run(cell, sheets);
  }
}
