// How well a stated covariance is itself known.
#pragma once

namespace versolay {

/// Degrees of freedom that the covariance which a reading states is taken to have.
constexpr double kStatementDof = 6.0;

}  // namespace versolay
