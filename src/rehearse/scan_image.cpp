#include "rehearse/scan_image.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>
#include <optional>

#include "rehearse/dust.h"
#include "rehearse/kernel.h"
#include "rehearse/sensor.h"
#include "rehearse/tables.h"
#include "rehearse/threads.h"

namespace versolay::rehearse {
namespace {

using Eigen::Vector2d;

constexpr int kBandRows = 64;  // fixed, so that the arithmetic does not depend on the threads
constexpr std::uint64_t kMostRows = 100000;  // of a picture
constexpr int kTile = 256;                   // of the textures
constexpr float kCardLight = 0.045f;
constexpr float kLidLight = 0.80f;
constexpr float kShadowDepth = 0.65f;
constexpr double kBurrMm = 0.25;  // width of the raised rim

/// Ink at (u, v) of a raster, between its pixels; bare paper outside.
inline float ink_at(const PageRaster& raster, double u, double v) {
  const double x = u - 0.5, y = v - 0.5;
  const int column = static_cast<int>(std::floor(x)), row = static_cast<int>(std::floor(y));
  if (column < 0 || row < 0 || column >= raster.width - 1 || row >= raster.height - 1) return 0.0f;
  const auto right = static_cast<float>(x - column);
  const auto down = static_cast<float>(y - row);
  const std::uint8_t* upper = raster.row(row) + column;
  const std::uint8_t* lower = upper + raster.width;
  const float above = upper[0] + right * static_cast<float>(upper[1] - upper[0]);
  const float below = lower[0] + right * static_cast<float>(lower[1] - lower[0]);
  return above + down * (below - above);
}

/// The ink in every pixel of a row of the picture: the sum over its samples.
void add_up_ink(const PrintedPage& page, const Tables& tables, int row, int samples,
                std::vector<float>& sum) {
  const double per_swath = 1.0 / page.swath_px;
  const int last_swath = static_cast<int>(page.swath_shift_px.size()) - 1;
  for (std::size_t pixel = 0; pixel < sum.size(); ++pixel) {
    sum[pixel] = 0.0f;
    const int first = static_cast<int>(pixel) * samples;
    const Vector2d corner = tables.at(first, row * samples);
    if (!page.map.may_have_ink(corner.x(), corner.y())) continue;
    for (int j = 0; j < samples; ++j) {
      for (int i = 0; i < samples; ++i) {
        const Vector2d uv = tables.at(first + i, row * samples + j);
        const int swath = std::clamp(static_cast<int>(uv.y() * per_swath), 0, last_swath);
        const auto& shift = page.swath_shift_px[static_cast<std::size_t>(swath)];
        sum[pixel] += ink_at(page.raster, uv.x() - static_cast<double>(shift[0]),
                             uv.y() - static_cast<double>(shift[1]));
      }
    }
  }
}

/// Box of pixels outside of which an object cannot be seen.
struct PixelBox {
  int left, right, top, bottom;  // inclusive
};

class Scanner {
 public:
  Scanner(const SideOnGlass& seen, const Bed& bed, const PaperSettings& paper,
          const InkSettings& ink, const ScannerSettings& scanner, std::uint64_t seed,
          std::uint64_t stream)
      : seen_(seen),
        bed_(bed),
        paper_(paper),
        ink_(ink),
        scanner_(scanner),
        seed_(seed),
        stream_(stream),
        samples_(samples_per_axis(scanner.dpi, seen.page->raster.ppi)),
        sheet_from_bed_(seen.pose.bed_from_sheet().inverse()),
        raster_(bed, raster_from_bed(seen.sheet_from_page, seen.page->raster.ppi), samples_),
        sheet_(bed, sheet_from_bed_, 1),
        kernel_(gaussian_kernel(scanner.blur_um / (bed.mm_per_px() * 1e3))),
        dust_(scanner.dust, bed, Random(seed, "dust", stream)) {
    if (seen.page_behind != nullptr && paper.show_through > 0.0) {
      const TurnAxis axis = seen.sheet->axis;
      const Affine<SheetMm, SheetMm> behind_from_here =
          relabel_affine<SheetMm, SheetMm>(recto_from_verso(axis));
      const auto behind_page_from_bed =
          raster_from_page(seen.page_width_mm, seen.page_height_mm, seen.page_behind->faint.ppi) *
          seen.sheet_from_page_behind.inverse() * behind_from_here * sheet_from_bed_;
      behind_.emplace(bed, behind_page_from_bed, 1);
    }
    for (const FurtherPrint& print : seen.further) {
      further_.emplace_back(bed, raster_from_bed(print.sheet_from_page, print.page->raster.ppi),
                            samples_);
    }
    find_boxes();
    draw_textures();
  }

  void fill_band(int first_row, int rows, ScanImage& image) const {
    const int reach = static_cast<int>(kernel_.size()) / 2;
    cv::Mat light(rows + 2 * reach, bed_.width_px(), CV_32F);
    std::vector<float> ink(static_cast<std::size_t>(bed_.width_px()));
    for (int r = 0; r < light.rows; ++r) {
      const int row = std::clamp(first_row - reach + r, 0, bed_.height_px() - 1);
      fill_row(row, ink, light.ptr<float>(r));
    }
    if (scanner_.blur_um > 0.0) {
      cv::sepFilter2D(light, light, CV_32F, kernel_, kernel_, {-1, -1}, 0.0, cv::BORDER_REPLICATE);
    }
    for (int r = 0; r < rows; ++r) {
      expose_row(
          scanner_, first_row + r, light.ptr<float>(r + reach), image,
          Random(seed_, "noise", stream_ * kMostRows + static_cast<std::uint64_t>(first_row + r)));
    }
  }

 private:
  static int samples_per_axis(double dpi, double ppi) {
    return std::max(dpi > ppi ? 1 : 2, static_cast<int>(std::ceil(ppi / dpi - 0.01)));
  }
  Affine<RasterPx, BedMm> raster_from_bed(const Affine<SheetMm, PageMm>& sheet_from_page,
                                          double ppi) const {
    return raster_from_page(seen_.page_width_mm, seen_.page_height_mm, ppi) *
           sheet_from_page.inverse() * sheet_from_bed_;
  }

  PixelBox box_round(const Vector2d& centre_in_sheet, double reach_mm) const {
    const Point<ScanPx> px =
        bed_.px_from_bed(seen_.pose.bed_from_sheet()(Point<SheetMm>::from(centre_in_sheet)));
    const int reach = static_cast<int>(std::ceil(reach_mm * 1.02 / bed_.mm_per_px())) + 3;
    const int x = static_cast<int>(px.x), y = static_cast<int>(px.y);
    return {std::max(x - reach, 0), std::min(x + reach, bed_.width_px() - 1), y - reach, y + reach};
  }

  void find_boxes() {
    for (const Hole& hole : seen_.sheet->holes) {
      const Rim& rim = seen_.sheet->rim(hole, seen_.side);
      hole_boxes_.push_back(box_round(rim.centre_mm, rim.reach_mm()));
      if (hole.kind == HoleKind::prick) {
        burrs_.emplace_back(&rim, box_round(rim.centre_mm, rim.reach_mm() + kBurrMm));
      }
    }
    std::sort(hole_boxes_.begin(), hole_boxes_.end(),
              [](const PixelBox& a, const PixelBox& b) { return a.left < b.left; });
    for (const Blot& blot : blots()) {
      blot_boxes_.push_back(box_round(blot.centre_mm, blot.radius_mm));
    }
  }

  const std::vector<Blot>& blots() const {
    return seen_.sheet->blots[seen_.side == Side::recto ? 0 : 1];
  }

  void draw_textures() {
    Random random(seed_, "texture", stream_);
    texture_.resize(static_cast<std::size_t>(kTile) * kTile);
    for (float& t : texture_) t = random.quick_normal();
    cv::Mat tile(kTile, kTile, CV_32F, texture_.data());
    cv::Mat soft;
    cv::copyMakeBorder(tile, soft, 8, 8, 8, 8, cv::BORDER_WRAP);
    cv::GaussianBlur(soft, soft, {0, 0}, 1.0);
    soft(cv::Rect(8, 8, kTile, kTile)).copyTo(tile);
    tile *= 3.5;  // blurring by 1 px leaves 1 / sqrt(4 pi) of the spread
  }

  float texture(int x, int y) const {
    return texture_[static_cast<std::size_t>(y % kTile) * kTile +
                    static_cast<std::size_t>(x % kTile)];
  }

  /// Share of a pixel's square that an outline at this distance (mm, positive inside) covers.
  float covered(double inside_mm) const {
    return static_cast<float>(std::clamp(0.5 + inside_mm / bed_.mm_per_px(), 0.0, 1.0));
  }

  /// Share of paper in the pixel at a place of the sheet.
  float paper_at(const Vector2d& p) const {
    float share = covered(seen_.sheet->distance_inside_mm(seen_.side, p));
    for (const Hole& hole : seen_.sheet->holes) {
      const Rim& rim = seen_.sheet->rim(hole, seen_.side);
      if ((p - rim.centre_mm).cwiseAbs().maxCoeff() > rim.reach_mm() + 1.0) continue;
      share *= covered(rim.distance_outside_mm(p));
    }
    return share;
  }

  float background_at(int x, int y, const Vector2d& p) const {
    if (scanner_.background == Background::black_card) {
      const auto grain = static_cast<float>(scanner_.card_texture);
      return kCardLight * (1.0f + grain * texture(x / 2 + 77, y / 2 + 31));
    }
    // The lamp is on one side of the sensor: paper throws its shadow along the carriage.
    const Vector2d towards_lamp = sheet_from_bed_.linear() * Vector2d(0.0, -scanner_.shadow_mm);
    return kLidLight * (1.0f - kShadowDepth * paper_at(p + towards_lamp));
  }

  /// Ink on ink is no darker than ink.
  void print_over(std::size_t i, int row, std::vector<float>& ink) const {
    std::vector<float> more(ink.size());
    add_up_ink(*seen_.further[i].page, further_[i], row, samples_, more);
    const float most = 255.0f * static_cast<float>(samples_ * samples_);
    for (std::size_t x = 0; x < ink.size(); ++x) ink[x] = std::min(most, ink[x] + more[x]);
  }

  void fill_row(int row, std::vector<float>& ink, float* light) const {
    add_up_ink(*seen_.page, raster_, row, samples_, ink);
    for (std::size_t i = 0; i < further_.size(); ++i) print_over(i, row, ink);
    const auto white = static_cast<float>(paper_.reflectance);
    const auto grain = static_cast<float>(paper_.texture);
    const auto taken = static_cast<float>(ink_.density / (255.0 * samples_ * samples_));
    const auto shown = static_cast<float>(paper_.show_through / 255.0);
    const Vector2d safe = seen_.sheet->safely_inside_mm();
    for (int x = 0; x < bed_.width_px(); ++x) {
      float r = white * (1.0f - taken * ink[static_cast<std::size_t>(x)]);
      if (grain > 0.0f) r *= 1.0f + grain * texture(x, row);
      if (behind_) {
        const Vector2d uv = behind_->at(x, row);
        if (seen_.page_behind->map.may_have_ink(uv.x() * kFaintFactor, uv.y() * kFaintFactor)) {
          r *= 1.0f - shown * ink_at(seen_.page_behind->faint, uv.x(), uv.y());
        }
      }
      light[x] = r;
      const Vector2d p = sheet_.at(x, row);
      if (std::abs(p.x()) < safe.x() && std::abs(p.y()) < safe.y()) continue;
      mix_background(x, row, p, light[x]);
    }
    add_blots(row, light);
    add_burrs(row, light);
    int done_to = -1;  // boxes of neighbouring holes may overlap
    for (const PixelBox& box : hole_boxes_) {
      if (row < box.top || row > box.bottom) continue;
      for (int x = std::max(box.left, done_to + 1); x <= box.right; ++x) {
        const Vector2d p = sheet_.at(x, row);
        const bool at_edge = std::abs(p.x()) >= safe.x() || std::abs(p.y()) >= safe.y();
        if (!at_edge) mix_background(x, row, p, light[x]);
      }
      done_to = std::max(done_to, box.right);
    }
    dust_.darken(row, bed_.width_px(), light);
  }

  void mix_background(int x, int row, const Vector2d& p, float& light) const {
    const float share = paper_at(p);
    if (share < 1.0f) light = share * light + (1.0f - share) * background_at(x, row, p);
  }

  /// The paper round a prick is pushed up at the back and down at the front; the lamp shines on it
  /// from one side, so that it is light towards the lamp and dark behind, or the reverse.
  void add_burrs(int row, float* light) const {
    if (paper_.burr_shade == 0.0) return;
    const Vector2d towards_lamp = (sheet_from_bed_.linear() * Vector2d(0.0, -1.0)).normalized();
    const double up = seen_.side == Side::verso ? 1.0 : -0.5;
    for (const auto& [rim, box] : burrs_) {
      if (row < box.top || row > box.bottom) continue;
      for (int x = box.left; x <= box.right; ++x) {
        const Vector2d from_centre = sheet_.at(x, row) - rim->centre_mm;
        const double outside = rim->distance_outside_mm(sheet_.at(x, row));
        const double height = std::clamp(1.0 - outside / kBurrMm, 0.0, 1.0);
        const double facing = from_centre.normalized().dot(towards_lamp);
        light[x] *= static_cast<float>(1.0 + paper_.burr_shade * up * height * facing);
      }
    }
  }

  void add_blots(int row, float* light) const {
    for (std::size_t i = 0; i < blots().size(); ++i) {
      const PixelBox& box = blot_boxes_[i];
      if (row < box.top || row > box.bottom) continue;
      const Blot& blot = blots()[i];
      for (int x = box.left; x <= box.right; ++x) {
        const double inside = blot.radius_mm - (sheet_.at(x, row) - blot.centre_mm).norm();
        light[x] *= 1.0f - 0.85f * covered(inside);
      }
    }
  }

  const SideOnGlass& seen_;
  const Bed& bed_;
  const PaperSettings& paper_;
  const InkSettings& ink_;
  const ScannerSettings& scanner_;
  std::uint64_t seed_;
  std::uint64_t stream_;
  int samples_;
  Affine<SheetMm, BedMm> sheet_from_bed_;
  Tables raster_;
  std::vector<Tables> further_;
  Tables sheet_;
  std::optional<Tables> behind_;
  std::vector<float> kernel_;
  std::vector<PixelBox> hole_boxes_;
  std::vector<std::pair<const Rim*, PixelBox>> burrs_;
  std::vector<PixelBox> blot_boxes_;
  std::vector<float> texture_;
  Dust dust_;
};

}  // namespace

ScanImage scan_side(const SideOnGlass& seen, const Bed& bed, const PaperSettings& paper,
                    const InkSettings& ink, const ScannerSettings& scanner, std::uint64_t seed,
                    std::uint64_t stream, int threads) {
  const Scanner machine(seen, bed, paper, ink, scanner, seed, stream);
  ScanImage image{bed.width_px(), bed.height_px(), scanner.colour ? 3 : 1, {}};
  image.bytes.resize(static_cast<std::size_t>(image.width) * image.height * image.channels);
  const int bands = (image.height + kBandRows - 1) / kBandRows;
  in_parallel(bands, threads, [&](int band) {
    const int first = band * kBandRows;
    machine.fill_band(first, std::min(kBandRows, image.height - first), image);
  });
  return image;
}

}  // namespace versolay::rehearse
