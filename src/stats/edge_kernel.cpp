#include "stats/edge_kernel.h"

#include <algorithm>
#include <cmath>

#include "core/expect.h"

namespace versolay::stats {
namespace {

constexpr std::size_t kPoolSize = std::size_t{1} << 18;
constexpr std::size_t kTailsPoolSize = std::size_t{1} << 16;
constexpr std::uint64_t kPoolStream = ~std::uint64_t{0};
constexpr std::uint64_t kTailsStream = kPoolStream - 1;
constexpr std::uint64_t kSameSheetsStream = kPoolStream - 2;
constexpr int kComponents = 6;

constexpr double kLeastReachMm = 1e-6;  // an edge without any reach needs a large multiple of it

float reciprocal(double mm) { return mm > 0 ? static_cast<float>(1 / mm) : 0.0F; }
float per_reach(double mm) { return static_cast<float>(1 / std::max(mm, kLeastReachMm)); }

/// Rows: vx, sx, k - th (x), vy, th + k, sy (y) in mm and plain numbers, from the components in mm,
/// mrad and ppm.
Eigen::Matrix<double, 6, 6> linear_from_registration() {
  Eigen::Matrix<double, 6, 6> m = Eigen::Matrix<double, 6, 6>::Zero();
  m(0, 0) = 1;
  m(1, 3) = 1e-6;
  m(2, 2) = -1e-3;
  m(2, 5) = 1e-3;
  m(3, 1) = 1;
  m(4, 2) = 1e-3;
  m(4, 5) = 1e-3;
  m(5, 4) = 1e-6;
  return m;
}

}  // namespace

EdgeKernel::EdgeKernel(const CardCells& cells, const Eigen::Vector2d& direction, Value value,
                       int sheets, std::uint64_t seed)
    : value_(value),
      sheets_(sheets),
      per_mm_x_(reciprocal(direction.x())),
      per_mm_y_(reciprocal(direction.y())),
      half_width_(static_cast<float>(cells.width_mm / 2)),
      half_height_(static_cast<float>(cells.height_mm / 2)),
      local_sd_(static_cast<float>(cells.local_sd_mm)),
      cut_sd_(static_cast<float>(cells.cut_sd_mm)),
      seed_(seed),
      slack_x_(kTile),
      slack_y_(kTile) {
  expect(!cells.centres.empty() && sheets > 0);
  expect(cells.fixed_mm.empty() || cells.fixed_mm.size() == cells.centres.size());
  expect(cells.reach_mm.empty() ||
         (cells.reach_mm.size() == cells.centres.size() && direction == Eigen::Vector2d(1.0, 1.0)));
  edges_differ_ = !cells.reach_mm.empty();
  for (std::size_t i = 0; i < cells.centres.size(); ++i) {
    ScaledCell cell{};
    cell.px = static_cast<float>(cells.centres[i].x);
    cell.py = static_cast<float>(cells.centres[i].y);
    if (!cells.fixed_mm.empty()) {
      cell.fixed_x = static_cast<float>(cells.fixed_mm[i].x()) * per_mm_x_;
      cell.fixed_y = static_cast<float>(cells.fixed_mm[i].y()) * per_mm_y_;
    }
    if (edges_differ_) {
      const EdgeReach& reach = cells.reach_mm[i];
      cell.per_left = per_reach(reach.left_mm);
      cell.per_top = per_reach(reach.top_mm);
      cell.per_right = per_reach(reach.right_mm);
      cell.per_bottom = per_reach(reach.bottom_mm);
    }
    cells_.push_back(cell);
  }
  for (auto& row : linear_) row.resize(kTile);
  values_.resize(static_cast<std::size_t>(sheets) *
                 (value == Value::per_card ? cells_.size() : std::size_t{1}));
  if (local_sd_ > 0 || cut_sd_ > 0 || edges_differ_) {
    pool_.resize(kPoolSize + static_cast<std::size_t>(sheets));
    Random(seed, kPoolStream).fill_normal(pool_);
  }
  if (cells.heavy_tails) {
    tails_.resize(kTailsPoolSize + static_cast<std::size_t>(sheets));
    Random random(seed, kTailsStream);
    for (float& tail : tails_) {
      double chi2_5 = 0.0;
      for (int i = 0; i < 5; ++i) {
        const double z = random.normal();
        chi2_5 += z * z;
      }
      tail = static_cast<float>(std::sqrt(3.0 / chi2_5));
    }
  }
  if (cells.fixed_root_mm.size() > 0) {
    expect(cells.fixed_root_mm.rows() == static_cast<Eigen::Index>(cells_.size()));
    fixed_root_ = cells.fixed_root_mm;
    fixed_ = cells.fixed_mm;
    fixed_.resize(cells_.size(), Eigen::Vector2d::Zero());
  }
}

void EdgeKernel::draw_noise_places(Random& random) {
  const auto place = [&random](std::size_t size) {
    return static_cast<std::size_t>(random.uniform() * static_cast<double>(size));
  };
  if (!pool_.empty()) {
    for (ScaledCell& cell : cells_) {
      for (std::size_t& start : cell.noise_start) start = place(kPoolSize);
    }
  }
  if (!tails_.empty()) tails_start_ = place(kTailsPoolSize);
}

void EdgeKernel::draw_fixed(Random& random) {
  if (fixed_root_.size() == 0) return;
  Eigen::MatrixX2d z(fixed_root_.cols(), 2);
  for (double& value : z.reshaped()) value = random.normal();
  const Eigen::MatrixX2d off = fixed_root_ * z;
  for (std::size_t i = 0; i < cells_.size(); ++i) {
    const auto row = static_cast<Eigen::Index>(i);
    cells_[i].fixed_x = static_cast<float>(fixed_[i].x() + off(row, 0)) * per_mm_x_;
    cells_[i].fixed_y = static_cast<float>(fixed_[i].y() + off(row, 1)) * per_mm_y_;
  }
}

std::span<const float> EdgeKernel::run(const Population& population, Random& random) {
  draw_noise_places(random);
  draw_fixed(random);
  const int columns = static_cast<int>(population.root.cols());
  z_.resize(static_cast<std::size_t>(columns * kTile));
  for (int first = 0; first < sheets_; first += kTile) {
    const int count = std::min(kTile, sheets_ - first);
    draw_sheets(random, first, count, {z_.data(), static_cast<std::size_t>(columns * count)});
    place_sheets(population, z_.data(), count, count);
    evaluate(first, count);
  }
  return values_;
}

std::span<const float> EdgeKernel::run_same_sheets(const Population& population, Random& random) {
  if (same_z_.empty()) keep_sheets();
  draw_fixed(random);
  for (int first = 0; first < sheets_; first += kTile) {
    const int count = std::min(kTile, sheets_ - first);
    place_sheets(population, same_z_.data() + first, sheets_, count);
    evaluate(first, count);
  }
  return values_;
}

void EdgeKernel::keep_sheets() {
  Random random(seed_, kSameSheetsStream);
  draw_noise_places(random);
  same_z_.resize(static_cast<std::size_t>(kComponents * sheets_));
  draw_sheets(random, 0, sheets_, same_z_);
}

void EdgeKernel::draw_sheets(Random& random, int first, int count, std::span<float> z) const {
  random.fill_normal(z);
  if (tails_.empty()) return;
  const float* __restrict tails = tails_.data() + tails_start_ + first;
  for (std::size_t column = 0; column < z.size(); column += static_cast<std::size_t>(count)) {
    for (int m = 0; m < count; ++m) z[column + static_cast<std::size_t>(m)] *= tails[m];
  }
}

void EdgeKernel::place_sheets(const Population& population, const float* z, int stride, int count) {
  expect(population.mean.size() == kComponents && population.root.rows() == kComponents);
  static const Eigen::Matrix<double, 6, 6> kLinear = linear_from_registration();
  const Eigen::VectorXd offset = kLinear * population.mean;
  const Eigen::MatrixXd root = kLinear * population.root;
  for (int row = 0; row < 6; ++row) {
    const double scale = row < 3 ? per_mm_x_ : per_mm_y_;
    float* __restrict out = linear_[row].data();
    std::fill_n(out, count, static_cast<float>(offset[row] * scale));
    for (Eigen::Index c = 0; c < root.cols(); ++c) {
      const auto factor = static_cast<float>(root(row, c) * scale);
      if (factor == 0.0F) continue;
      const float* __restrict column = z + c * stride;
      for (int m = 0; m < count; ++m) out[m] += factor * column[m];
    }
  }
  for (int m = 0; m < count; ++m) {
    slack_x_[m] = std::abs(linear_[2][m]) * half_height_ + std::abs(linear_[1][m]) * half_width_;
    slack_y_[m] = std::abs(linear_[4][m]) * half_width_ + std::abs(linear_[5][m]) * half_height_;
  }
}

const float* EdgeKernel::noise(const ScaledCell& cell, int which, int first) const {
  return pool_.data() + cell.noise_start[which] + first;
}

/// An edge falls short where the image moves away from it: the left one where it moves right.
void EdgeKernel::evaluate_edges(const ScaledCell& cell, int first, int count, float* needed) const {
  const float* __restrict n0 = noise(cell, 0, first);
  const float* __restrict n1 = noise(cell, 1, first);
  const float* __restrict n2 = noise(cell, 2, first);
  const float* __restrict n3 = noise(cell, 3, first);
  const float* __restrict n4 = noise(cell, 4, first);
  const float* __restrict n5 = noise(cell, 5, first);
  for (int m = 0; m < count; ++m) {
    const float a = linear_[0][m] + linear_[1][m] * cell.px + linear_[2][m] * cell.py +
                    cell.fixed_x + local_sd_ * n0[m];
    const float b = linear_[3][m] + linear_[4][m] * cell.px + linear_[5][m] * cell.py +
                    cell.fixed_y + local_sd_ * n1[m];
    const float left = (a + cut_sd_ * n2[m] + slack_x_[m]) * cell.per_left;
    const float right = (cut_sd_ * n3[m] - a + slack_x_[m]) * cell.per_right;
    const float top = (b + cut_sd_ * n4[m] + slack_y_[m]) * cell.per_top;
    const float bottom = (cut_sd_ * n5[m] - b + slack_y_[m]) * cell.per_bottom;
    needed[m] = std::max(std::max(left, right), std::max(top, bottom));
  }
}

void EdgeKernel::evaluate(int first, int count) {
  const float* __restrict vx = linear_[0].data();
  const float* __restrict sx = linear_[1].data();
  const float* __restrict gx = linear_[2].data();
  const float* __restrict vy = linear_[3].data();
  const float* __restrict gy = linear_[4].data();
  const float* __restrict sy = linear_[5].data();
  const float* __restrict slack_x = slack_x_.data();
  const float* __restrict slack_y = slack_y_.data();
  const bool noisy = !pool_.empty();
  if (value_ == Value::per_sheet) std::fill_n(values_.data() + first, count, 0.0F);

  float needed[kTile];
  for (std::size_t i = 0; i < cells_.size(); ++i) {
    const ScaledCell cell = cells_[i];
    if (edges_differ_) {
      evaluate_edges(cell, first, count, needed);
    } else if (!noisy) {
      for (int m = 0; m < count; ++m) {
        const float a = vx[m] + sx[m] * cell.px + gx[m] * cell.py + cell.fixed_x;
        const float b = vy[m] + gy[m] * cell.px + sy[m] * cell.py + cell.fixed_y;
        needed[m] = std::max(std::abs(a) + slack_x[m], std::abs(b) + slack_y[m]);
      }
    } else {
      const float local_x = local_sd_ * per_mm_x_;
      const float local_y = local_sd_ * per_mm_y_;
      const float cut_x = cut_sd_ * per_mm_x_;
      const float cut_y = cut_sd_ * per_mm_y_;
      const float* __restrict n0 = noise(cell, 0, first);
      const float* __restrict n1 = noise(cell, 1, first);
      const float* __restrict n2 = noise(cell, 2, first);
      const float* __restrict n3 = noise(cell, 3, first);
      const float* __restrict n4 = noise(cell, 4, first);
      const float* __restrict n5 = noise(cell, 5, first);
      for (int m = 0; m < count; ++m) {
        const float a = vx[m] + sx[m] * cell.px + gx[m] * cell.py + cell.fixed_x + local_x * n0[m];
        const float b = vy[m] + gy[m] * cell.px + sy[m] * cell.py + cell.fixed_y + local_y * n1[m];
        const float x = std::max(a + cut_x * n2[m], cut_x * n3[m] - a) + slack_x[m];
        const float y = std::max(b + cut_y * n4[m], cut_y * n5[m] - b) + slack_y[m];
        needed[m] = std::max(x, y);
      }
    }
    if (value_ == Value::per_card) {
      std::copy_n(needed, count, values_.data() + i * static_cast<std::size_t>(sheets_) + first);
    } else {
      float* __restrict worst = values_.data() + first;
      for (int m = 0; m < count; ++m) worst[m] = std::max(worst[m], needed[m]);
    }
  }
}

}  // namespace versolay::stats
