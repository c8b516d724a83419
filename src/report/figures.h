// The figures of a report, one file each. All show a side of the sheet as seen from that side,
// which the figure names. Words of direction come from words/direction_words.
#pragma once

#include <optional>

#include "report/document.h"
#include "versolay/advice.h"
#include "versolay/printer_profile.h"

namespace versolay {

/// Where the middle of each back landed, before and after the correction, with the ellipses of mean
/// and spread. `shift`: what is done to the back artwork; nullopt: nothing.
Figure feed_scatter(const PrinterProfile& profile, const std::optional<BackShift>& shift);

/// The front of a sheet: at every card, how often it shows a sliver.
Figure sheet_map(const Advice& advice, const Paper& paper);

/// A card back, life-size, with the oversize around it and the band in which the edge of a border
/// will lie.
Figure card_back(const Advice& advice);

/// How far the back is off all over the page, as arrows, magnified.
Figure displacement_field(const PrinterProfile& profile);

/// How much of the variation comes from printer and paper, from the session, from the reading.
/// Precondition: profile.shares is not empty.
Figure variance_shares(const PrinterProfile& profile);

/// Good cards of a sheet against oversize, with the usual enlargements by hand.
Figure yield_curve(const Advice& advice);

/// The oversize to be expected with more target sheets. Precondition: advice.savings is not empty.
Figure more_sheets(const Advice& advice, const PrinterProfile& profile);

/// How a sheet is turned to print its back, and what left, right, up and down mean.
Figure turn_diagram(Turn turn, const Paper& paper);

/// The feeds in their order, sessions apart. Precondition: profile.feeds is not empty.
Figure time_trend(const PrinterProfile& profile);

}  // namespace versolay
