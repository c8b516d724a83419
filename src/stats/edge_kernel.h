// How far the edges of the back images of many simulated sheets fall short: the inner loop of the
// Monte Carlo.
#pragma once

#include <Eigen/Core>
#include <cstdint>
#include <span>
#include <vector>

#include "stats/fiducial.h"
#include "stats/random.h"
#include "versolay/layout.h"
#include "versolay/registration.h"

namespace versolay::stats {

/// Where the cards are on the back page, and what else moves their edges.
struct CardCells {
  double width_mm = 0.0;
  double height_mm = 0.0;
  std::vector<Point<VersoMm>> centres;
  /// Displacement of each cell that no registration describes and that is the same on every sheet;
  /// empty: none.
  std::vector<Eigen::Vector2d> fixed_mm;
  /// What is not known of it: cells x q, each axis is off by fixed_root_mm * z. Empty: known.
  Eigen::MatrixXd fixed_root_mm;
  double local_sd_mm = 0.0;  // further displacement of a card, each axis, new on every sheet
  double cut_sd_mm = 0.0;    // of each cut edge
  /// Feeds with heavy tails: multivariate t with 5 degrees of freedom and the covariance of the
  /// population, instead of normal.
  bool heavy_tails = false;
  /// By cell, where edges differ: the kernel then returns the multiple of these that a card needs,
  /// and uses a direction of (1, 1). Empty: all edges have the same reach.
  std::vector<EdgeReach> reach_mm;
};

/// For a sheet with residual registration v (after the correction) and a card at (px, py), w x h:
///
///   X = max(a + cut, cut' - a) + |k - th| h/2 + |sx| w/2,   a = vx + sx px + (k - th) py + local
///   Y likewise with the axes exchanged,                     b = vy + (th + k) px + sy py + local
///
/// are the largest distances by which a left/right (top/bottom) edge of the back image moved
/// anywhere along the edge: the maximum over the four corners. The card shows no sliver when
/// X <= oversize x and Y <= oversize y.
///
/// The kernel returns max(X / hx, Y / hy) for a direction (hx, hy) of the oversize: the multiple of
/// (hx, hy) that the card needs. Single precision: the rounding is 1e-7 of a value, the Monte Carlo
/// noise 1e-2.
class EdgeKernel {
 public:
  enum class Value { per_card, per_sheet };  // per_sheet: the worst card of each sheet

  /// `direction` in mm; 0 in one of the two ignores that axis.
  /// @param sheets  number of sheets per run
  EdgeKernel(const CardCells& cells, const Eigen::Vector2d& direction, Value value, int sheets,
             std::uint64_t seed);

  /// Simulates `sheets` sheets of a population (6 components as RegistrationVector). The values
  /// stay valid until the next run: sheets x cells of them cell by cell, or one per sheet.
  std::span<const float> run(const Population& population, Random& random);

  /// The same of sheets whose random numbers are drawn once, from the kernel's seed, and serve
  /// every population: for comparing populations, since the luck of the draw cancels. Only what is
  /// not known of the fixed displacement is drawn from `random`.
  std::span<const float> run_same_sheets(const Population& population, Random& random);

  int cells() const { return static_cast<int>(cells_.size()); }

 private:
  static constexpr int kTile = 512;  // sheets at a time: the working set stays in the L1 cache

  struct ScaledCell {
    float px, py;                                    // mm
    float fixed_x, fixed_y;                          // in units of the direction
    float per_left, per_top, per_right, per_bottom;  // 1 / reach, where edges differ
    std::size_t noise_start[6];  // where in the pool this cell reads, for this run
  };

  void draw_noise_places(Random& random);
  void draw_fixed(Random& random);
  /// Normals (heavy tails: t) of the sheets first .. first + count - 1, `count` a column.
  void draw_sheets(Random& random, int first, int count, std::span<float> z) const;
  void keep_sheets();
  /// @param z  normals of `count` sheets, a column of the root every `stride` numbers
  void place_sheets(const Population& population, const float* z, int stride, int count);
  void evaluate(int first, int count);
  void evaluate_edges(const ScaledCell& cell, int first, int count, float* needed) const;
  const float* noise(const ScaledCell& cell, int which, int first) const;

  std::vector<ScaledCell> cells_;
  Eigen::MatrixXd fixed_root_;  // cells x q, mm
  std::vector<Eigen::Vector2d> fixed_;
  Value value_;
  bool edges_differ_ = false;
  int sheets_;
  float per_mm_x_, per_mm_y_;  // 1 / direction
  float half_width_, half_height_;
  float local_sd_, cut_sd_;
  /// Normal numbers for the errors of single cards: made once, read from random places. They are
  /// a nuisance beside the registration, which gets new numbers every time.
  std::vector<float> pool_;
  /// sqrt(3 / chi2_5): makes a normal sheet one of a t distribution with the same covariance.
  std::vector<float> tails_;
  std::size_t tails_start_ = 0;
  std::uint64_t seed_;
  std::vector<float> z_;                  // kTile normals per column of the root
  std::vector<float> same_z_;             // those of run_same_sheets: all sheets, six columns
  std::vector<float> linear_[6];          // vx, sx, k - th, vy, th + k, sy: kTile each, scaled
  std::vector<float> slack_x_, slack_y_;  // the |.| h/2 + |.| w/2 terms
  std::vector<float> values_;
};

}  // namespace versolay::stats
