// Before anything is printed: how many sheets, and in which order to try set-ups.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "versolay/advice.h"
#include "versolay/layout.h"
#include "versolay/paper.h"
#include "versolay/printer_profile.h"
#include "versolay/registration.h"

namespace versolay {

/// Of the variance from feed to feed, what sheets of one pack are taken to differ by (from memory).
inline constexpr double kPlannedSheetShare = 0.1;

struct SampleSizeRequest {
  double coverage = kUsualCoverage;
  double confidence = kUsualConfidence;
  double ppi = kUsualPpi;
  double sd_mm = 0.2;  // spread at the cards from feed to feed, one axis: assumed
  /// Of a printer that was measured; nullopt: shifts alone, of that spread both ways.
  std::optional<RegistrationMatrix> spread = std::nullopt;
  CardGrid grid = {};  // where the cards are, for a measured printer
  Turn turn = Turn::long_edge;
  Paper paper = {};
};

/// What a calibration with n sheets would bring.
struct PlanRow {
  int sheets = 0;
  double oversize_mm = 0.0;  // per side, to be expected
  int oversize_px = 0;
  double saved_by_next_mm = 0.0;    // by one more sheet
  double smallest_offset_mm = 0.0;  // constant offset found four times out of five
};

/// One way to come to a profile, with its effort.
struct PlanChoice {
  int sheets = 0;
  int passes = 1;            // of every sheet on each side
  double oversize_mm = 0.0;  // per side, to be expected
  int oversize_px = 0;
  int feeds = 0;
  int scans = 0;
  int minutes = 0;  // of hands: drying is not counted
};

struct SampleSizePlan {
  std::vector<PlanRow> rows;  // 4 to 30 sheets
  int advised = 10;           // 10, or 15 from a coverage of 0.99 on, or where one more sheet
                              // stops saving a pixel or 1 %
  double limit_mm = 0.0;      // with the printer known exactly
  std::vector<PlanChoice>
      choices;  // side by side; sheets are taken to differ by kPlannedSheetShare
};

/// By playing the procedures that are run later (profile/foretold.h). Throws Error, naming the
/// field, for numbers out of range.
SampleSizePlan plan_sample_size(const SampleSizeRequest& request);

struct RunOrderRequest {
  std::vector<std::string> set_ups;  // two or more
  int blocks = 6;                    // sheets per set-up
  std::uint64_t seed = 1;
};

struct Run {
  int number = 0;
  int block = 0;
  std::size_t set_up = 0;
};

/// Randomised complete blocks: every block holds each set-up once in a new random order, so that
/// warm-up and humidity affect all equally, and neighbours can be compared in pairs.
std::vector<Run> run_order(const RunOrderRequest& request);

/// What `blocks` sheets of each of two set-ups can show, as multiples of the spread.
struct RunPower {
  double paired_difference = 0.0;  // of the constant parts; in sd of the difference within a pair
  double spread_ratio = 0.0;       // 0: too few sheets to compare spreads
};
RunPower run_power(int blocks);

/// Spread of the left-right or up-down place of a card's edge, whichever is larger, at the outer
/// cards of the page: shift and rotation together, mm.
double spread_at_cards_mm(const PrinterProfile& profile, const CardSize& card);

/// What was planned, and for what.
struct Plan {
  SampleSizeRequest asked;  // sd_mm: measured or assumed
  bool sd_is_measured = false;
  SampleSizePlan sheets;
  RunOrderRequest order;  // no set-ups: no experiment
  std::vector<Run> runs;
  RunPower power;
};

}  // namespace versolay
