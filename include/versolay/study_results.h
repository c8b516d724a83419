// What a set of sheets shows beyond the registration of each: how well they were read, how the
// printer lays its pages on the paper, and what the other way of turning would do.
#pragma once

#include <Eigen/Core>
#include <optional>
#include <string>
#include <vector>

#include "versolay/paper.h"

namespace versolay {

/// One component of the registration, from sheets that were scanned several times, lifted and laid
/// down again in between.
struct GaugeComponent {
  std::string component;           // a key of kRegistrationKeys
  double repeatability_sd = 0.0;   // s_r of one scan of each side
  double repeatability_low = 0.0;  // 95 % interval
  double repeatability_high = 0.0;
  bool has_spread = false;       // two sheets or more; the rest is set only then
  bool distinguishable = false;  // the sheets differ by more than the reading of one
  double spread_sd = 0.0;        // from sheet to sheet, the repeatability taken out
  double spread_sd_high = 0.0;   // upper 95 % limit of the spread as it was seen
  double share = 1.0;            // of the repeatability in the variance of one reading
  int distinct_categories = 0;   // ndc
};

/// Lean and burr of a hole, and what the print does in the same way on every scan, are not in it.
struct GaugeReport {
  int sheets = 0;  // that were scanned several times
  int dof = 0;     // sum of (scans - 1)
  bool enough = false;
  std::vector<GaugeComponent> components;  // dx, dy, rotation
};

/// The registration to be expected when the sheets are turned about their other edge, from where
/// both passes lie on the paper.
struct OtherTurn {
  Turn turn = Turn::short_edge;
  int sheets = 0;
  Eigen::Vector3d mean{0.0, 0.0, 0.0};  // dx mm, dy mm, rotation mrad; signs as always
  Eigen::Vector3d half_width{0.0, 0.0,
                             0.0};           // 95 %, of the mean; of one sheet: its reading's alone
  Eigen::Vector3d spread_sd{0.0, 0.0, 0.0};  // from sheet to sheet; 0 for a single sheet
};

/// Half of the sheets were printed with the page rotated by 180 degrees, on both sides:
/// what the printer does changes its sign on them, what the measurement adds does not.
struct FedRoundCheck {
  int sheets_upright = 0;
  int sheets_round = 0;
  Eigen::Vector2d bias_mm{0.0, 0.0};        // of the measurement, right and down
  Eigen::Vector2d half_width_mm{0.0, 0.0};  // 95 %
  double p_value = 1.0;                     // of "no bias", both directions together
  bool real = false;
};

struct Studies {
  std::optional<GaugeReport> gauge;
  std::optional<OtherTurn> other_turn;
  std::optional<FedRoundCheck> fed_round;
};

}  // namespace versolay
