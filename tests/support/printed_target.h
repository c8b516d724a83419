// A target of one sheet, printed without any error.
#pragma once

#include <vector>

#include "app/target.h"
#include "support/pdf_render.h"
#include "support/scratch_folder.h"

namespace versolay::testing_support {

/// An A4 target and its two pages, front and back, as pdftocairo draws them.
class PrintedTarget {
 public:
  explicit PrintedTarget(int dpi) {
    TargetRequest request;
    request.paper = parse_paper("a4");
    request.sheets = 1;
    request.run = "K7QX";
    request.pdf = folder_ / "target.pdf";
    geometry = run_target(request).geometry;
    for (const int page : {1, 2}) {
      pages.push_back(render(Renderer::pdftocairo, request.pdf, page, dpi));
    }
  }
  TargetGeometry geometry;
  std::vector<Raster> pages;

 private:
  ScratchFolder folder_;
};

}  // namespace versolay::testing_support
