// Sheets that the printer did not feed properly.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "versolay/printer_profile.h"

namespace versolay {

/// Was the feed left out by the test, and not by the user?
bool is_misfeed(const ProfileFeed& feed);

struct Misfeed {
  std::size_t feed = 0;           // index
  bool gross = false;             // to be left out; else only remarked on
  int component = 0;              // the one that is farthest off: 0 dx, 1 dy, 2 rotation
  double deviation = 0.0;         // mm or mrad
  double half_diagonal_mm = 0.0;  // of the page

  Length off() const;         // dx, dy
  Angle turn() const;         // rotation
  Length at_corners() const;  // of a rotation
  Term way() const;           // "left", "up", "clockwise" ...
  Finding why() const;        // as ProfileFeed::left_out
};

/// Looks at dx, dy and rotation of `feeds`, about the middle of each session.
/// @param half_diagonal_mm  of the page: at its corners a rotation moves most.
std::vector<Misfeed> find_misfeeds(std::span<const ProfileFeed> feeds, double half_diagonal_mm);

}  // namespace versolay
