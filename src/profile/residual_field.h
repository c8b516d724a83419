// Errors common to all sheets beyond shift, rotation and scale: at holes and at the cards between.
#pragma once

#include <span>

#include "profile/estimate.h"
#include "versolay/printer_profile.h"

namespace versolay {

/// Mean residual at every hole that at least four of the sheets have, tested (Student's t of every
/// hole and axis, Bonferroni) and its size estimated.
/// Fewer than 8 holes: no points, because the affine part uses up six of the numbers that the holes
/// give, and the rest of 4 holes cannot distinguish a field from the error of one hole.
/// @param used  which sheets of each session take part, in the order of the readings
ResidualField estimate_field(std::span<const ReadingSession> sessions,
                             const std::vector<std::vector<bool>>& used, double page_diagonal_mm);

/// The field at some places, and the root (places x q, mm, either axis) of the covariance of what
/// is not known of it.
struct FieldEstimate {
  std::vector<Eigen::Vector2d> at_mm;
  Eigen::MatrixXd root_mm;
};

/// Smoothed between the holes: universal kriging with an affine drift and a Gaussian covariance of
/// the field's amplitude and length. Precondition: field.real.
/// Source  Cressie, Statistics for Spatial Data, 1993, section 3.4.
FieldEstimate field_at(const ResidualField& field, std::span<const Point<VersoMm>> places);

}  // namespace versolay
