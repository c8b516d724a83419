// The self-checks of a sheet: limits and findings.
#pragma once

#include <optional>

#include "registration/paired_features.h"
#include "versolay/sheet_readings.h"

namespace versolay {

/// Limits of the rms of residuals (one axis) and of a single feature, mm.
struct ResidualLimits {
  double warn;
  double fail;
  double single;
};
ResidualLimits residual_limits(FeatureKind kind);

/// Does the paper look as large from the back as from the front, to 0.2 mm? True when it is not
/// known.
bool paper_size_agrees(const SheetReading& sheet);

/// Paper size seen from both sides: adds a notice beyond 0.2 mm, refuses beyond 0.4 mm.
std::optional<Refusal> check_paper_size(const SheetReading& sheet, Notices& warnings);

/// Residuals within their limits, or why not. `recto`, `verso` and `axis` serve to find the reason:
/// another turn, another sheet.
std::optional<Refusal> check_residuals(const PairedFeatures& pairs, const DisplacementFit& fit,
                                       const CombinedFeatures& recto, const CombinedFeatures& verso,
                                       Turn turn, TurnAxis axis, Notices& warnings);

/// Adds a notice (shape_implausible) where the back is sheared or stretched against the front as no
/// printer does it: something was read wrongly on one side.
void check_shape(const DisplacementFit& fit, Notices& warnings);

/// Adds a notice (hole_shapes_differ) for holes that do not look the same from both sides.
void check_hole_shapes(const PairedFeatures& pairs, Notices& warnings);

/// Adds a notice (hole_unreadable, hole_on_one_side) for each hole that something kept from being
/// read, or that only one side shows, while others of its kind were read. Where six holes or more
/// were read, none is missed: of eight pricks, one or two are often ragged.
void check_missed_holes(const std::vector<SideReading>& recto,
                        const std::vector<SideReading>& verso, const PairedFeatures& pairs,
                        Notices& warnings);

/// Why there is nothing to pair, from what was missed on either side.
Refusal why_nothing_was_read(const std::vector<SideReading>& recto,
                             const std::vector<SideReading>& verso, bool edges_wanted);

}  // namespace versolay
