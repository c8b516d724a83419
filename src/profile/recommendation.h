// From a printer profile to a verdict: how to shift the backs and how much to oversize them.
#pragma once

#include <span>
#include <vector>

#include "stats/oversize_bound.h"
#include "versolay/advice.h"
#include "versolay/printer_profile.h"

namespace versolay {

inline constexpr int kFewestDof = 3;  // of the spread of a profile; below: no advice

/// How much work to put into the Monte Carlo.
struct Effort {
  int populations = 0;  // 0: as many as it takes for a standard error of 0.006 mm; at most 20000
  int sheets = 0;       // of each; 0: 500 (2000 with `populations`), more for a high coverage
  int threads = 0;      // 0: one per core; the advice does not depend on it
};

/// Advice for one layout.
///
/// Shift: R^-1 of the mean registration, as far as the user can set it (dx and dy in steps). No
/// shift where the mean, with its uncertainty, moves every card by less than one step (pixel); a
/// mean that may be chance is followed, and `direction_sure` says how sure it is.
/// With a real residual field, the oversize covers its value at every cell, since moving the page
/// cannot take that away, and what is not known of it; where each card can be moved, the latter
/// only.
/// Oversize: what keeps the promise of the request, given all that is not known of mean and spread,
/// and with the correction as it is really applied (stats::PromisedOversize).
///
/// Refuses: fewer than kFewestDof degrees of freedom of the spread; readings without any spread and
/// uncertainty; two or three sessions that differ, unless the newest was chosen by recentring.
/// Throws BadField for a request outside its ranges.
Result<Advice> advise(const PrinterProfile& profile, const AdviceRequest& request,
                      const Effort& effort = {});

const char* to_string(Growth growth);  // "equal", "proportional", "per-axis"

/// Why no shift is advised. Precondition: profile.spread_dof >= 1, request valid.
NoShift no_shift_reason(const PrinterProfile& profile, const AdviceRequest& request);

/// The part of an advice that depends on how sure one wants to be.
struct SureAdvice {
  double confidence = 0.0;
  Oversize oversize;
  double worst_off_mm = 0.0;  // as Centring::worst_off_mm
};
/// The advice for several confidences at once, much faster than one by one: every number is exactly
/// the one of advise().
struct SureAdvices {
  BackShift shift;
  NoShift no_shift = NoShift::none;
  double typical_off_mm = 0.0;  // as Centring::typical_off_mm
  std::vector<SureAdvice> list;
};
/// Precondition: advise(profile, request) gives an advice.
SureAdvices advise_for(const PrinterProfile& profile, const AdviceRequest& request,
                       std::span<const double> confidences, const Effort& effort = {});

/// Shift and oversize of advise(), without all that surrounds them.
struct BareAdvice {
  BackShift shift;
  Oversize oversize;
  stats::FutureCards future;  // with the shift
};
/// @fails  as advise().
Result<BareAdvice> bare_advice(const PrinterProfile& profile, const AdviceRequest& request,
                               const Effort& effort = {});

/// Throws BadField, naming the field, when a number of the request is outside its range.
void validate(const AdviceRequest& request);

/// The statistical problem behind advise(): for other questions about the same cards.
/// Preconditions: profile.spread_dof >= 1, request valid.
stats::FutureCards future_cards(const PrinterProfile& profile, const AdviceRequest& request,
                                const Registration& correction);

}  // namespace versolay
