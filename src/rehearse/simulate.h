// A dry run: prints a PDF on both sides of simulated sheets, makes holes, scans both sides, and
// keeps the truth.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "core/progress.h"
#include "rehearse/bed.h"
#include "rehearse/geometry_file.h"
#include "rehearse/paper_sheet.h"
#include "rehearse/passes.h"
#include "rehearse/settings.h"

namespace versolay::rehearse {

/// A printed sheet, as it really is. The registration is that of the two passes as wholes: swath
/// jitter, roller and ink bleed move single marks off it by some 10 um, which no reading can avoid.
struct SheetTruth {
  int sheet = 0;  // 1, 2, ...; its pages are 2 sheet - 1 and 2 sheet of the PDF
  Passes passes;
  std::vector<Hole> holes;

  Registration registration() const { return passes.registration(); }
  /// Where a point of the back page landed, in the frame of the front, seen from the back.
  Point<VersoMm> landing(const Point<VersoMm>& p) const { return passes.landed_from_page()(p); }
  /// Where a hole is on the page of each side, in mm of the print.
  Point<RectoMm> hole_in_recto(const Hole& hole) const;
  Point<VersoMm> hole_in_verso(const Hole& hole) const;
};

/// One picture, and what it shows.
struct ScanTruth {
  std::filesystem::path file;
  int sheet = 0;
  Side side = Side::recto;
  int part = 0;  // halves, shifted: 0 the upper end of the page, 1 the lower
  Pose pose;
  double dpi = 0.0;
  double written_dpi = 0.0;  // 0: none
};

struct RehearsalScans {
  std::vector<std::filesystem::path> scans;  // in the order of their names, which is shuffled
  std::filesystem::path truth_file;
  std::string renderer;  // the program that drew the pages
  Paper paper;
  Turn turn = Turn::long_edge;
  std::vector<SheetTruth> sheets;   // by number
  std::vector<ScanTruth> pictures;  // in the order of `scans`
};

/// What is printed.
struct PrintJob {
  std::filesystem::path pdf;  // pages recto 1, verso 1, recto 2, ...; with passes, as they are fed
  Paper paper;
  Turn turn = Turn::long_edge;
  std::vector<HolePlace> holes;
  bool repeat_pages = false;  // more sheets than the PDF has: begin again with its first page
  int pages = 0;              // of the PDF, the first so many; 0: all
};

/// Prints, punches and scans. Writes out_dir/scans/001.png ... and out_dir/truth.json; out_dir is
/// made when it does not exist; files in it that have these names are replaced.
/// Throws Error when the PDF cannot be drawn, does not fit the paper or has too few pages, or when
/// a file cannot be written.
RehearsalScans print_and_scan(const RehearsalSettings& settings, const PrintJob& job,
                              const std::filesystem::path& out_dir, const Progress& progress = {});

/// The same for a target and the geometry file that was written with it.
RehearsalScans simulate(const RehearsalSettings& settings, const std::filesystem::path& pdf,
                        const std::filesystem::path& geometry, const std::filesystem::path& out_dir,
                        const Progress& progress = {});

}  // namespace versolay::rehearse
