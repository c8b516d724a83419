// Sheets that the printer did not feed properly.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "versolay/profile.h"

namespace versolay {

/// Begins ProfileFeed::left_out of the feeds that the test left out, not the user.
inline constexpr char kMisfeedPrefix[] = "misfeed: ";

struct Misfeed {
  std::size_t feed = 0;  // index
  bool gross = false;    // to be left out; else only remarked on
  std::string why;       // "1.92 mm farther right than the others"
};

/// Looks at dx, dy and rotation of `feeds`, about the middle of each session.
/// @param half_diagonal_mm  of the page: at its corners a rotation moves most.
std::vector<Misfeed> find_misfeeds(std::span<const ProfileFeed> feeds, double half_diagonal_mm);

}  // namespace versolay
