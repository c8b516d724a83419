// "What if I asked for 99 %?": the advice over a grid of requests.
#pragma once

#include "profile/recommendation.h"
#include "report/document.h"

namespace versolay {

/// Shift, oversize and centring for every combination of coverage, confidence and growth rule about
/// those of the request, by advise_for(), so that each number is the one that `versolay advise`
/// gives for the same wishes. The resolution changes pixels only, except where a shift below one
/// pixel is not worth setting: for such resolutions there is a group of results of its own.
///
/// data:
///   { "ppi": [{ "ppi", "group" }], "border_mm", "coverage": [..], "confidence": [..],
///     "grow": [..], "count": "card|sheet",
///     "chosen": { "coverage", "confidence", "grow", "ppi" },                  of the request
///     "shifts": [{ "advised", "dx_mm", "dy_mm", "rotation_mrad" }],           one per group
///     "cases": [{ "group", "grow", "coverage", "confidence", "x_mm", "y_mm",
///                 "typical_off_mm", "worst_off_mm" }] }                  not rounded
/// Precondition: advise(profile, request) gives an advice.
WhatIfTable what_if(const PrinterProfile& profile, const AdviceRequest& request,
                    const Effort& effort);

}  // namespace versolay
