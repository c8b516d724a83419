// PDFs looked at by programs that have nothing to do with the ones that wrote them.
#pragma once

#include <gtest/gtest.h>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <stdexcept>
#include <string>

#include "artwork/raster.h"
#include "core/files.h"
#include "core/numbers.h"
#include "support/scratch_folder.h"
#include "versolay/frames.h"
#include "versolay/paper.h"

namespace versolay::testing_support {

struct CommandResult {
  int status = 0;
  std::string output;  // stdout and stderr
};

inline CommandResult run(const std::string& command) {
  FILE* pipe = popen((command + " 2>&1").c_str(), "r");
  if (pipe == nullptr) throw std::runtime_error("cannot run " + command);
  CommandResult result;
  std::array<char, 4096> buffer;
  for (std::size_t n; (n = fread(buffer.data(), 1, buffer.size(), pipe)) > 0;) {
    result.output.append(buffer.data(), n);
  }
  result.status = pclose(pipe);
  return result;
}

inline bool has_program(const std::string& name) { return run("command -v " + name).status == 0; }

enum class Renderer { pdftocairo, mutool };

inline const char* program(Renderer r) {
  return r == Renderer::pdftocairo ? "pdftocairo" : "mutool";
}

/// A page as grey pixels. `page` counts from 1.
inline Raster render(Renderer renderer, const std::filesystem::path& pdf, int page, int dpi) {
  const ScratchFolder scratch;
  const std::string number = std::to_string(page);
  const std::string command =
      renderer == Renderer::pdftocairo
          ? "pdftocairo -cropbox -png -gray -singlefile -r " + std::to_string(dpi) + " -f " +
                number + " -l " + number + " '" + pdf.string() + "' '" +
                (scratch / "page").string() + "'"
          : "mutool draw -q -c gray -r " + std::to_string(dpi) + " -o '" +
                (scratch / "page.png").string() + "' '" + pdf.string() + "' " + number;
  const CommandResult result = run(command);
  if (result.status != 0) throw std::runtime_error(command + ": " + result.output);
  return read_raster(scratch / "page.png");
}

/// Places on a rendered page. Both renderers put the upper left corner of the page at the upper
/// left corner of the image.
struct RenderedPage {
  Raster raster;
  Paper paper;
  int dpi;

  double px(double mm) const { return mm * dpi / kMmPerInch; }
  double ink(int x, int y) const { return 1.0 - raster.at(x, y, 0) / 255.0; }

  /// Centre of the ink within `window_mm` of a place where a mark should be, page mm; the amount
  /// of ink in mm2 in `area`.
  Point<PageMm> centroid(const Point<PageMm>& near, double window_mm,
                         double* area = nullptr) const {
    const double cx = px(near.x + paper.width_mm / 2);
    const double cy = px(near.y + paper.height_mm / 2);
    const double half = px(window_mm);
    double sum = 0, sum_x = 0, sum_y = 0;
    for (int y = static_cast<int>(cy - half); y <= static_cast<int>(cy + half); ++y) {
      for (int x = static_cast<int>(cx - half); x <= static_cast<int>(cx + half); ++x) {
        if (x < 0 || y < 0 || x >= raster.width_px || y >= raster.height_px) continue;
        sum += ink(x, y);
        sum_x += ink(x, y) * (x + 0.5);
        sum_y += ink(x, y) * (y + 0.5);
      }
    }
    if (area != nullptr) *area = sum * kMmPerInch * kMmPerInch / dpi / dpi;
    if (sum == 0) throw std::runtime_error("no ink where a mark should be");
    return {sum_x / sum * kMmPerInch / dpi - paper.width_mm / 2,
            sum_y / sum * kMmPerInch / dpi - paper.height_mm / 2};
  }

  /// Ink at one place, 0..1.
  double ink_at(const Point<PageMm>& p) const {
    return ink(static_cast<int>(px(p.x + paper.width_mm / 2)),
               static_cast<int>(px(p.y + paper.height_mm / 2)));
  }
};

inline RenderedPage render_page(Renderer renderer, const std::filesystem::path& pdf, int page,
                                const Paper& paper, int dpi = 600) {
  return {render(renderer, pdf, page, dpi), paper, dpi};
}

}  // namespace versolay::testing_support
