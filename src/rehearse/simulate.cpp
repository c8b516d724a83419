#include "rehearse/simulate.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <mutex>
#include <thread>

#include "core/files.h"
#include "core/numbers.h"
#include "rehearse/findings.h"
#include "rehearse/image_file.h"
#include "rehearse/page_renderer.h"
#include "rehearse/punch.h"
#include "rehearse/scan_image.h"
#include "rehearse/threads.h"
#include "rehearse/truth.h"

namespace versolay::rehearse {
namespace {

constexpr double kWrongDpi = 96.0;  // what many programs write when they know nothing

int thread_count(const RehearsalSettings& settings) {
  if (settings.threads > 0) return settings.threads;
  return std::max(1, static_cast<int>(std::thread::hardware_concurrency()));
}

int sheet_count(const RehearsalSettings& settings, const PrintJob& job, int pages) {
  const int of_a_sheet = 2 * settings.passes.passes;
  const int in_pdf = pages / of_a_sheet;
  if (pages < of_a_sheet || pages % of_a_sheet != 0) {
    throw Error(job.pdf.string(), findings::pages_do_not_pair(pages));
  }
  if (settings.sheets == 0) return in_pdf;
  if (settings.sheets > in_pdf && !job.repeat_pages) {
    throw Error(job.pdf.string(), findings::too_few_pages(in_pdf, settings.sheets));
  }
  return settings.sheets;
}

void require_fit(const PageRaster& page, const PrintJob& job) {
  const double width_mm = page.width / page.ppi * 25.4, height_mm = page.height / page.ppi * 25.4;
  const double tolerance_mm = 0.2 + 1.5 * 25.4 / page.ppi;
  if (std::abs(width_mm - job.paper.width_mm) < tolerance_mm &&
      std::abs(height_mm - job.paper.height_mm) < tolerance_mm) {
    return;
  }
  throw Error(job.pdf.string(), findings::pages_of_other_size(Length{width_mm}, Length{height_mm},
                                                              Length{job.paper.width_mm},
                                                              Length{job.paper.height_mm}));
}

/// The numbers 0 .. count - 1 in a random order.
std::vector<int> shuffled(int count, Random random) {
  std::vector<int> order(static_cast<std::size_t>(count));
  for (int i = 0; i < count; ++i) order[static_cast<std::size_t>(i)] = i;
  for (int i = count - 1; i > 0; --i) {
    std::swap(order[static_cast<std::size_t>(i)],
              order[static_cast<std::size_t>(random.below(i + 1))]);
  }
  return order;
}

struct BedSize {
  double width_mm;
  double height_mm;
};

/// What one picture sees of the sheet, along the axes of the sheet.
struct Window {
  double across_mm;  // size
  double along_mm;
  double middle_along_mm;  // place on the sheet, from its centre
};

int pictures_of(Coverage coverage) { return coverage == Coverage::whole ? 1 : 2; }

/// @param part  0: the upper end of the page is well in the picture; 1: the lower one.
Window window_of(const Paper& paper, const ScannerSettings& s, int part) {
  const double towards = part == 0 ? -1.0 : 1.0;
  Window window{paper.width_mm + 2.0 * s.margin_mm, paper.height_mm + 2.0 * s.margin_mm, 0.0};
  if (s.coverage == Coverage::halves) {
    window.across_mm = paper.width_mm;
    window.along_mm = (paper.height_mm + kHalvesOverlapMm) / 2 + s.margin_mm;
  } else if (s.coverage == Coverage::shifted) {
    window.along_mm = paper.height_mm;
    window.middle_along_mm = towards * s.shift_mm / 2;
  }
  if (s.bed_across_mm > 0) window.across_mm = s.bed_across_mm;
  if (s.bed_along_mm > 0) window.along_mm = s.bed_along_mm;
  if (s.coverage == Coverage::halves) {
    window.middle_along_mm = towards * (paper.height_mm / 2 + s.margin_mm - window.along_mm / 2);
  }
  return window;
}

BedSize bed_size(const Window& window, int orientation_deg) {
  const bool lying = orientation_deg % 180 != 0;
  return {lying ? window.along_mm : window.across_mm, lying ? window.across_mm : window.along_mm};
}

class Rehearsal {
 public:
  Rehearsal(const RehearsalSettings& settings, const PrintJob& job,
            const std::filesystem::path& out_dir, const Progress& progress)
      : settings_(settings),
        job_(job),
        scans_dir_(out_dir / "scans"),
        progress_(progress),
        pages_(job.pdf, settings.raster_ppi),
        page_count_(job.pages > 0 ? std::min(job.pages, pages_.page_count()) : pages_.page_count()),
        sheets_(sheet_count(settings, job, page_count_)),
        scans_per_side_(settings.scans_per_side * pictures_of(settings.scanner.coverage)),
        scan_count_(2 * sheets_ * scans_per_side_),
        order_(shuffled(scan_count_, Random(settings.seed, "order"))) {}

  RehearsalScans run() {
    std::filesystem::create_directories(scans_dir_);
    RehearsalScans result;
    result.paper = job_.paper;
    result.turn = job_.turn;
    result.renderer = pages_.program_name();
    result.truth_file = scans_dir_.parent_path() / "truth.json";
    result.sheets.resize(static_cast<std::size_t>(sheets_));
    result.pictures.resize(static_cast<std::size_t>(scan_count_));
    const int threads = thread_count(settings_);
    // Large pictures are made one after the other, to stay within a small computer's memory.
    const int sheets_at_once = settings_.scanner.dpi > 600 ? 1 : std::min(threads, sheets_);
    in_parallel(sheets_, sheets_at_once, [&](int index) {
      make_sheet(index, std::max(1, threads / sheets_at_once), result);
    });
    for (const ScanTruth& picture : result.pictures) result.scans.push_back(picture.file);
    write_file_atomically(result.truth_file, to_text(truth_json(result, settings_)), true);
    return result;
  }

 private:
  void make_sheet(int index, int threads, RehearsalScans& result) {
    const auto number = static_cast<std::uint64_t>(index);
    const TurnAxis axis = turn_axis(job_.turn, job_.paper);
    SheetTruth& truth = result.sheets[static_cast<std::size_t>(index)];
    truth.sheet = index + 1;
    truth.passes = draw_passes(settings_.passes, axis, Random(settings_.seed, "passes", number));

    PaperSheet sheet =
        draw_sheet(job_.paper, axis, settings_.paper, Random(settings_.seed, "sheet", number));
    truth.holes = make_holes(job_.holes, truth.passes, settings_.holes,
                             Random(settings_.seed, "holes", number));
    sheet.holes = truth.holes;

    const int passes = settings_.passes.passes;
    const int in_pdf = page_count_ / (2 * passes);
    const auto print = [&](int side, int pass) {
      const int place =
          passes == 1 ? 2 * index + side : (side * passes + pass) * in_pdf + index % in_pdf;
      const auto page = pages_.page(place % page_count_ + 1);
      require_fit(*page, job_);
      return print_page(*page, settings_.ink,
                        Random(settings_.seed, "ink", 2 * number + side + 100000 * pass));
    };
    const PrintedPage front = print(0, 0);
    const PrintedPage back = print(1, 0);
    std::vector<PrintedPage> further_fronts;
    std::vector<PrintedPage> further_backs;
    for (int pass = 1; pass < passes; ++pass) {
      further_fronts.push_back(print(0, pass));
      further_backs.push_back(print(1, pass));
    }

    SideOnGlass recto{
        .side = Side::recto,
        .sheet = &sheet,
        .page = &front,
        .page_behind = &back,
        .sheet_from_page = relabel_affine<SheetMm, PageMm>(truth.passes.front),
        .sheet_from_page_behind = relabel_affine<SheetMm, PageMm>(truth.passes.back),
        .page_width_mm = job_.paper.width_mm,
        .page_height_mm = job_.paper.height_mm,
        .pose = {},
        .further = {},
    };
    SideOnGlass verso = recto;
    for (std::size_t i = 0; i < further_fronts.size(); ++i) {
      recto.further.push_back(
          {&further_fronts[i], relabel_affine<SheetMm, PageMm>(truth.passes.further_fronts[i])});
      verso.further.push_back(
          {&further_backs[i], relabel_affine<SheetMm, PageMm>(truth.passes.further_backs[i])});
    }
    verso.side = Side::verso;
    std::swap(verso.page, verso.page_behind);
    std::swap(verso.sheet_from_page, verso.sheet_from_page_behind);
    for (int repeat = 0; repeat < scans_per_side_; ++repeat) {
      const int first = 2 * (index * scans_per_side_ + repeat);
      make_scan(first, repeat, recto, truth.sheet, threads, result);
      make_scan(first + 1, repeat, verso, truth.sheet, threads, result);
    }
  }

  /// @param made    counts all pictures
  /// @param repeat  counts those of this side of this sheet
  void make_scan(int made, int repeat, SideOnGlass& seen, int sheet, int threads,
                 RehearsalScans& result) {
    const ScannerSettings& s = settings_.scanner;
    const auto stream = static_cast<std::uint64_t>(made);
    Random random(settings_.seed, "pose", stream);
    Pose& pose = seen.pose;
    const int parts = pictures_of(s.coverage);
    pose.orientation_deg = s.orientations[static_cast<std::size_t>(
        random.below(static_cast<int>(s.orientations.size())))];
    if (s.turn_repeats) {
      pose.orientation_deg = (s.orientations.front() + 180 * (repeat / parts % 2)) % 360;
    }
    pose.skew_deg = random.uniform(-s.skew_deg, s.skew_deg);
    pose.growth = 1.0 + random.normal(settings_.paper.growth_between_scans_ppm * 1e-6);
    const Window window = window_of(job_.paper, s, repeat % parts);
    const BedSize size = bed_size(window, pose.orientation_deg);
    pose.centre_mm = Eigen::Vector2d(size.width_mm, size.height_mm) / 2.0 +
                     Eigen::Vector2d(random.uniform(-s.placement_mm, s.placement_mm),
                                     random.uniform(-s.placement_mm, s.placement_mm));
    if (window.middle_along_mm != 0.0) {
      pose.centre_mm -=
          pose.bed_from_sheet().linear() * Eigen::Vector2d(0.0, window.middle_along_mm);
    }
    const Bed bed(size.width_mm, size.height_mm, s, Random(settings_.seed, "bed", stream));
    const ScanImage image =
        scan_side(seen, bed, settings_.paper, settings_.ink, s, settings_.seed, stream, threads);

    const int place = order_[static_cast<std::size_t>(made)];
    char name[16];
    std::snprintf(name, sizeof name, "%03d", place + 1);
    ScanTruth& truth = result.pictures[static_cast<std::size_t>(place)];
    truth = {.file = scans_dir_ / (name + extension(s.kind)),
             .sheet = sheet,
             .side = seen.side,
             .part = repeat % parts,
             .pose = pose,
             .dpi = s.dpi,
             .written_dpi = s.dpi};
    if (s.dpi_metadata == DpiMetadata::wrong) truth.written_dpi = kWrongDpi;
    if (s.dpi_metadata == DpiMetadata::missing) truth.written_dpi = 0.0;
    write_file_atomically(truth.file, encode(image, s.kind, s.jpeg_quality, truth.written_dpi),
                          true);
    const std::scoped_lock lock(progress_mutex_);
    tell(progress_, ++done_, scan_count_, Term{"printing and scanning"});
  }

  const RehearsalSettings& settings_;
  const PrintJob& job_;
  std::filesystem::path scans_dir_;
  const Progress& progress_;
  PageRenderer pages_;
  int page_count_;  // that are printed
  int sheets_;
  int scans_per_side_;
  int scan_count_;
  std::vector<int> order_;
  std::mutex progress_mutex_;
  int done_ = 0;
};

}  // namespace

Point<RectoMm> SheetTruth::hole_in_recto(const Hole& hole) const {
  return passes.front.inverse()(Point<SheetFrontMm>::from(hole.front.centre_mm));
}

Point<VersoMm> SheetTruth::hole_in_verso(const Hole& hole) const {
  return passes.back.inverse()(Point<SheetBackMm>::from(hole.back.centre_mm));
}

RehearsalScans print_and_scan(const RehearsalSettings& settings, const PrintJob& job,
                              const std::filesystem::path& out_dir, const Progress& progress) {
  settings.validate();
  return Rehearsal(settings, job, out_dir, progress).run();
}

RehearsalScans simulate(const RehearsalSettings& settings, const std::filesystem::path& pdf,
                        const std::filesystem::path& geometry, const std::filesystem::path& out_dir,
                        const Progress& progress) {
  const TargetGeometry target = read_geometry(geometry);
  return print_and_scan(settings, {pdf, target.paper, target.turn, target.holes, false}, out_dir,
                        progress);
}

}  // namespace versolay::rehearse
