#include "rehearse/ink.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <opencv2/imgproc.hpp>

#include "rehearse/kernel.h"

namespace versolay::rehearse {
namespace {

constexpr double kUmPerInch = 25400.0;
constexpr double kSdOfPixelSquare = 0.288675;  // 1 / sqrt(12), in px: the rendering's anti-aliasing

double normal_cdf(double z) { return 0.5 * std::erfc(-z / std::numbers::sqrt2); }

/// The z with normal_cdf(z) = p, by bisection; only for tables.
double normal_quantile(double p) {
  double low = -8.0, high = 8.0;
  for (int i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2.0;
    (normal_cdf(middle) < p ? low : high) = middle;
  }
  return (low + high) / 2.0;
}

cv::Mat mat(PageRaster& raster) { return {raster.height, raster.width, CV_8U, raster.ink.data()}; }

/// The lower edge of everything moves down: each pixel takes the most ink found up to `px` above.
void bleed_down(PageRaster& raster, double px) {
  const int whole = static_cast<int>(px);
  const auto part = static_cast<float>(px - whole);
  for (int y = raster.height - 1; y > whole; --y) {
    std::uint8_t* to = raster.row(y);
    for (int i = 1; i <= whole; ++i) {
      const std::uint8_t* above = raster.row(y - i);
      for (int x = 0; x < raster.width; ++x) to[x] = std::max(to[x], above[x]);
    }
    const std::uint8_t* near = raster.row(y - whole);
    const std::uint8_t* far = raster.row(y - whole - 1);
    for (int x = 0; x < raster.width; ++x) {
      const float shifted =
          static_cast<float>(near[x]) * (1 - part) + static_cast<float>(far[x]) * part;
      to[x] = std::max(to[x], static_cast<std::uint8_t>(shifted + 0.5f));
    }
  }
}

/// Moves every edge outward. Across a soft edge the ink is normal_cdf(distance / softness), so
/// that an edge moved by d is normal_cdf(normal_quantile(ink) + d / softness). `ragged` adds to d.
class EdgeMover {
 public:
  static constexpr int kLevels = 32;  // of raggedness, from -3.5 to +3.5 sd

  EdgeMover(double outward_px, double softness_px, double ragged_px) {
    for (int level = 0; level < kLevels; ++level) {
      const double sds = (level + 0.5) / kLevels * 7.0 - 3.5;
      const double z = (outward_px + sds * ragged_px) / softness_px;
      for (int ink = 0; ink < 256; ++ink) {
        const double moved = normal_cdf(normal_quantile(ink / 255.0) + z);
        table_[static_cast<std::size_t>(level)][static_cast<std::size_t>(ink)] =
            ink == 0 ? 0 : static_cast<std::uint8_t>(std::lround(255.0 * moved));
      }
    }
  }
  std::uint8_t operator()(std::uint8_t ink, std::uint8_t level) const { return table_[level][ink]; }

 private:
  std::array<std::array<std::uint8_t, 256>, kLevels> table_{};
};

/// A square tile of smooth unit-variance noise that repeats without a seam, as EdgeMover levels.
constexpr int kInkTile = 512;
std::vector<std::uint8_t> ragged_tile(double correlation_px, Random& random) {
  cv::Mat noise(kInkTile, kInkTile, CV_32F);
  for (int y = 0; y < kInkTile; ++y) {
    for (int x = 0; x < kInkTile; ++x) noise.at<float>(y, x) = random.quick_normal();
  }
  cv::Mat wide;
  cv::copyMakeBorder(noise, wide, 32, 32, 32, 32, cv::BORDER_WRAP);
  const cv::Mat kernel = cv::Mat(gaussian_kernel(std::min(correlation_px, 8.0)), true);
  cv::sepFilter2D(wide, wide, CV_32F, kernel, kernel);
  noise = wide(cv::Rect(32, 32, kInkTile, kInkTile));
  cv::Scalar mean, sd;
  cv::meanStdDev(noise, mean, sd);
  std::vector<std::uint8_t> levels;
  levels.reserve(static_cast<std::size_t>(kInkTile) * kInkTile);
  for (int y = 0; y < kInkTile; ++y) {
    for (int x = 0; x < kInkTile; ++x) {
      const double sds = (noise.at<float>(y, x) - mean[0]) / std::max(sd[0], 1e-9);
      levels.push_back(static_cast<std::uint8_t>(
          std::clamp((sds + 3.5) / 7.0 * EdgeMover::kLevels, 0.0, EdgeMover::kLevels - 1.0)));
    }
  }
  return levels;
}

void spread_edges(PageRaster& raster, const InkSettings& s, Random& random) {
  const double px_per_um = raster.ppi / kUmPerInch;
  const double spread_px = std::max(s.spread_um, s.dot_gain_um / 2.0) * px_per_um;
  if (spread_px > 0.0) {
    cv::Mat ink = mat(raster);
    const cv::Mat kernel = cv::Mat(gaussian_kernel(spread_px), true);
    cv::sepFilter2D(ink, ink, CV_8U, kernel, kernel, {-1, -1}, 0.0, cv::BORDER_REPLICATE);
  }
  if (s.dot_gain_um == 0.0 && s.raggedness_um == 0.0) return;
  const EdgeMover moved(s.dot_gain_um / 2.0 * px_per_um, std::hypot(spread_px, kSdOfPixelSquare),
                        s.raggedness_um * px_per_um);
  constexpr double kRaggedCorrelationUm = 40.0;
  const std::vector<std::uint8_t> tile = ragged_tile(kRaggedCorrelationUm * px_per_um, random);
  for (int y = 0; y < raster.height; ++y) {
    const std::uint8_t* levels = tile.data() + static_cast<std::size_t>(y % kInkTile) * kInkTile;
    std::uint8_t* ink = raster.row(y);
    for (int x = 0; x < raster.width; ++x) {
      if (ink[x] != 0) ink[x] = moved(ink[x], levels[x % kInkTile]);
    }
  }
}

void lose_nozzles(PrintedPage& page, int count, Random& random) {
  for (int i = 0; i < count; ++i) {
    const double place = random.uniform() * page.swath_px;
    for (double v = place; v < page.raster.height; v += page.swath_px) {
      std::uint8_t* row = page.raster.row(static_cast<int>(v));
      std::fill(row, row + page.raster.width, std::uint8_t{0});
    }
  }
}

void draw_swaths(PrintedPage& page, const InkSettings& s, Random& random) {
  const double px_per_um = page.raster.ppi / kUmPerInch;
  page.swath_px = s.swath_mm * 1e3 * px_per_um;
  const double phase = random.uniform(0.0, 2.0 * std::numbers::pi);
  const int count = static_cast<int>(page.raster.height / page.swath_px) + 1;
  for (int i = 0; i < count; ++i) {
    const double turned = 2.0 * std::numbers::pi * i * s.swath_mm / s.roller_mm + phase;
    const double x_um = random.normal(s.swath_jitter_um);
    const double y_um = random.normal(s.swath_jitter_um) + s.roller_um * std::sin(turned);
    page.swath_shift_px.push_back(
        {static_cast<float>(x_um * px_per_um), static_cast<float>(y_um * px_per_um)});
  }
}

PageRaster faint_copy(PageRaster& raster) {
  PageRaster faint{(raster.width + kFaintFactor - 1) / kFaintFactor,
                   (raster.height + kFaintFactor - 1) / kFaintFactor,
                   raster.ppi / kFaintFactor,
                   {}};
  faint.ink.resize(static_cast<std::size_t>(faint.width) * faint.height);
  cv::Mat whole;
  cv::copyMakeBorder(mat(raster), whole, 0, faint.height * kFaintFactor - raster.height, 0,
                     faint.width * kFaintFactor - raster.width, cv::BORDER_REPLICATE);
  cv::Mat small = mat(faint);
  cv::resize(whole, small, small.size(), 0, 0, cv::INTER_AREA);
  cv::blur(small, small, {3, 3});
  return faint;
}

}  // namespace

InkMap::InkMap(const PageRaster& raster)
    : columns_(raster.width / kTilePx + 2), rows_(raster.height / kTilePx + 2) {
  inked_.resize(static_cast<std::size_t>(columns_) * rows_);
  const auto mark = [&](int column, int row) {
    for (int r = std::max(row - 1, 0); r <= std::min(row + 1, rows_ - 1); ++r) {
      for (int c = std::max(column - 1, 0); c <= std::min(column + 1, columns_ - 1); ++c) {
        inked_[static_cast<std::size_t>(r) * columns_ + c] = 1;
      }
    }
  };
  for (int y = 0; y < raster.height; ++y) {
    for (int x = 0; x < raster.width; x += kTilePx) {
      const std::uint8_t* from = raster.row(y) + x;
      const std::uint8_t* to = from + std::min(kTilePx, raster.width - x);
      if (std::any_of(from, to, [](std::uint8_t ink) { return ink != 0; })) {
        mark(x / kTilePx, y / kTilePx);
      }
    }
  }
}

PrintedPage print_page(const PageRaster& page, const InkSettings& settings, Random random) {
  PrintedPage printed;
  printed.raster = page;
  draw_swaths(printed, settings, random);
  lose_nozzles(printed, settings.missing_nozzles, random);
  const double bleed_px = settings.feed_bleed_um * page.ppi / kUmPerInch;
  if (bleed_px > 0.0) bleed_down(printed.raster, bleed_px);
  spread_edges(printed.raster, settings, random);
  printed.map = InkMap(printed.raster);
  printed.faint = faint_copy(printed.raster);
  return printed;
}

}  // namespace versolay::rehearse
