#include "rehearse/scan_image.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <opencv2/imgproc.hpp>

#include "rehearse/kernel.h"
#include "rehearse/parallel.h"

namespace versolay::rehearse {
namespace {

using Eigen::Vector2d;

constexpr int kBandRows = 64;  // fixed, so that the arithmetic does not depend on the threads
constexpr int kTile = 256;     // of the textures
constexpr float kCardLight = 0.045f;
constexpr float kLidLight = 0.80f;
constexpr float kShadowDepth = 0.65f;

/// An affine map of the places seen by the pixels, as one table over columns and one over rows.
class Tables {
 public:
  /// `target_from_bed` maps true mm on the glass to the wanted frame; `samples` per pixel and axis.
  template <class Target>
  Tables(const Bed& bed, const Affine<Target, BedMm>& target_from_bed, int samples) {
    const auto fill = [&](std::vector<Vector2d>& table, int pixels, const Vector2d& offset,
                          auto part) {
      table.reserve(static_cast<std::size_t>(pixels) * samples);
      for (int i = 0; i < pixels * samples; ++i) {
        const Bed::Part p = part((i + 0.5) / samples * bed.mm_per_px());
        table.push_back(target_from_bed.linear() * Vector2d(p.x, p.y) + offset);
      }
    };
    fill(column_, bed.width_px(), Vector2d::Zero(), [&](double x) { return bed.column_part(x); });
    fill(row_, bed.height_px(), target_from_bed.offset(),
         [&](double y) { return bed.row_part(y); });
  }
  Vector2d at(int column, int row) const {
    return column_[static_cast<std::size_t>(column)] + row_[static_cast<std::size_t>(row)];
  }

 private:
  std::vector<Vector2d> column_;
  std::vector<Vector2d> row_;
};

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

/// A dark (or bright) speck or hair on the glass.
struct Speck {
  Vector2d centre_px;
  Vector2d along;  // unit
  double half_length_px;
  double half_width_px;
  float light;  // share of light that passes
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
        kernel_(gaussian_kernel(scanner.blur_um / (bed.mm_per_px() * 1e3))) {
    if (seen.page_behind != nullptr && paper.show_through > 0.0) {
      const TurnAxis axis = seen.sheet->axis;
      const Affine<SheetMm, SheetMm> behind_from_here =
          relabel_affine<SheetMm, SheetMm>(recto_from_verso(axis));
      const auto behind_page_from_bed =
          raster_from_page(seen.page_width_mm, seen.page_height_mm, seen.page_behind->faint.ppi) *
          seen.sheet_from_page_behind.inverse() * behind_from_here * sheet_from_bed_;
      behind_.emplace(bed, behind_page_from_bed, 1);
    }
    find_boxes();
    draw_textures();
    draw_dust();
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
    for (int r = 0; r < rows; ++r) expose_row(first_row + r, light.ptr<float>(r + reach), image);
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

  void draw_dust() {
    Random random(seed_, "dust", stream_);
    for (int i = 0; i < scanner_.dust; ++i) {
      const bool hair = random.uniform() < 0.15;
      const double width_mm = hair ? random.uniform(0.02, 0.04) : random.uniform(0.02, 0.15);
      const double length_mm = hair ? random.uniform(0.5, 3.0) : width_mm;
      const double angle = random.uniform(0.0, std::numbers::pi);
      specks_.push_back(
          {{random.uniform(0.0, bed_.width_px()), random.uniform(0.0, bed_.height_px())},
           {std::cos(angle), std::sin(angle)},
           length_mm / 2.0 / bed_.mm_per_px(),
           width_mm / 2.0 / bed_.mm_per_px(),
           static_cast<float>(random.uniform(0.2, 0.7))});
    }
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
    // The lamp stands on one side of the sensor: paper throws its shadow along the carriage.
    const Vector2d towards_lamp = sheet_from_bed_.linear() * Vector2d(0.0, -scanner_.shadow_mm);
    return kLidLight * (1.0f - kShadowDepth * paper_at(p + towards_lamp));
  }

  void fill_row(int row, std::vector<float>& ink, float* light) const {
    add_up_ink(*seen_.page, raster_, row, samples_, ink);
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
    add_dust(row, light);
  }

  void mix_background(int x, int row, const Vector2d& p, float& light) const {
    const float share = paper_at(p);
    if (share < 1.0f) light = share * light + (1.0f - share) * background_at(x, row, p);
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

  void add_dust(int row, float* light) const {
    for (const Speck& s : specks_) {
      const double reach = s.half_length_px + s.half_width_px + 2.0;
      if (std::abs(row - s.centre_px.y()) > reach) continue;
      const int left = std::max(0, static_cast<int>(s.centre_px.x() - reach));
      const int right = std::min(bed_.width_px() - 1, static_cast<int>(s.centre_px.x() + reach));
      for (int x = left; x <= right; ++x) {
        const Vector2d d = Vector2d(x + 0.5, row + 0.5) - s.centre_px;
        const double length = std::max(0.0, std::abs(d.dot(s.along)) - s.half_length_px);
        const double across = std::abs(d.x() * s.along.y() - d.y() * s.along.x());
        const double inside = s.half_width_px - std::hypot(length, across);
        const auto share = static_cast<float>(std::clamp(0.5 + inside, 0.0, 1.0));
        light[x] *= 1.0f - share * (1.0f - s.light);
      }
    }
  }

  void expose_row(int row, const float* light, ScanImage& image) const {
    static const std::vector<std::uint8_t> grey = grey_table(true);
    static const std::vector<std::uint8_t> proportional = grey_table(false);
    const std::uint8_t* table = (scanner_.srgb_gamma ? grey : proportional).data();
    constexpr std::array<float, 3> kTint = {0.955f, 0.985f, 1.0f};  // blue, green, red: warm paper
    const auto slope = static_cast<float>(scanner_.illumination_slope);
    const auto vignetting = static_cast<float>(scanner_.vignetting);
    const auto noise = static_cast<float>(scanner_.noise);
    const float down = static_cast<float>(row + 0.5) / static_cast<float>(image.height) - 0.5f;
    Random random(seed_, "noise", stream_ * 100000u + static_cast<std::uint64_t>(row));
    std::uint8_t* to =
        image.bytes.data() + static_cast<std::size_t>(row) * image.width * image.channels;
    for (int x = 0; x < image.width; ++x) {
      const float across = static_cast<float>(x + 0.5) / static_cast<float>(image.width) - 0.5f;
      const float lamp =
          1.0f + slope * (0.6f * across + 0.4f * down) - vignetting * 4.0f * across * across;
      const float seen = light[x] * lamp;
      // Photon noise grows with the root of the light; a quarter of the noise at white is the
      // electronics' own.
      const float sd = noise * std::sqrt(0.06f + 0.94f * std::max(seen, 0.0f));
      for (int c = 0; c < image.channels; ++c) {
        float value = image.channels == 1 ? seen : seen * kTint[static_cast<std::size_t>(c)];
        if (noise > 0.0f) value += sd * random.quick_normal();
        *to++ = table[static_cast<int>(std::clamp(value, 0.0f, 1.0f) * kTableSteps + 0.5f)];
      }
    }
  }

  static constexpr float kTableSteps = 16384.0f;

  /// Light 0..1 to a grey value. Source of the curve  IEC 61966-2-1 (sRGB), from memory.
  static std::vector<std::uint8_t> grey_table(bool srgb) {
    std::vector<std::uint8_t> table;
    for (int i = 0; i <= static_cast<int>(kTableSteps); ++i) {
      const double light = i / static_cast<double>(kTableSteps);
      const double coded =
          light <= 0.0031308 ? 12.92 * light : 1.055 * std::pow(light, 1.0 / 2.4) - 0.055;
      table.push_back(static_cast<std::uint8_t>(std::lround(255.0 * (srgb ? coded : light))));
    }
    return table;
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
  Tables sheet_;
  std::optional<Tables> behind_;
  std::vector<float> kernel_;
  std::vector<PixelBox> hole_boxes_;
  std::vector<PixelBox> blot_boxes_;
  std::vector<float> texture_;
  std::vector<Speck> specks_;
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
