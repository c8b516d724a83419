// A person who reads a printed sheet by eye, for tests: computed from where lines and holes lie on
// the paper, not by the formulas of the program.
#pragma once

#include <cmath>
#include <random>

#include "registration/eye_table.h"
#include "target/eye_scales.h"
#include "versolay/registration.h"

namespace versolay::testing_support {

struct Eye {
  std::mt19937_64* random = nullptr;  // nullptr: reads without error
  double pointing_mm = 0.0;           // one sigma
  double step_mm = 0.0;               // 0: does not round

  double seen(double value) const {
    if (random != nullptr) value += std::normal_distribution<>(0.0, pointing_mm)(*random);
    return step_mm > 0.0 ? step_mm * std::round(value / step_mm) : value;
  }
};

/// The sheet's front is printed without error; its back landed by `landed`. The pin went through
/// at `offset` from the middle of the disc, as seen from the front; on the back it comes out `burr`
/// beside that.
inline EyeRow read_hole(const HolePlace& hole, TurnAxis axis, const Registration& landed,
                        const Eigen::Vector2d& offset, const Eigen::Vector2d& burr,
                        const Eye& eye) {
  const Eigen::Vector2d pin = hole.at.vec() + offset;  // on the paper, seen from the front
  const auto from_behind = verso_from_recto(axis)(Point<RectoMm>::from(pin + burr));
  // The point of the back page that landed there.
  const Point<VersoMm> on_back = landed.page_from_wanted()(from_behind);
  const Eigen::Vector2d disc_behind = verso_from_recto(axis)(hole.at).vec();
  EyeRow row;
  row.sheet = 1;
  row.place = hole.id;
  row.numbers = {eye.seen(13 + offset.x()), eye.seen(23 + offset.y()),
                 eye.seen(33 + on_back.x - disc_behind.x()),
                 eye.seen(43 + on_back.y - disc_behind.y())};
  return row;
}

/// Looks through the sheet from behind: which line of the back runs on in one of the front, and
/// which line of the front is at or before line 0 of the back.
inline EyeRow read_vernier(const VernierPlace& vernier, const Registration& landed,
                           const Eye& eye) {
  const Eigen::Vector2d along = unit_vector(vernier.axis);
  const int middle = vernier.axis == ScaleAxis::across ? 3 : 7;
  const double zero = along.dot(vernier.at.vec()) - 4.5;
  const auto back = [&](int k) {
    const auto line = Point<VersoMm>::from(vernier.at.vec() + (0.9 * k - 4.5) * along);
    return along.dot(landed.landed_from_page()(line).vec()) - zero;  // from the front's middle line
  };
  int best = 0;
  double least = 1.0;
  for (int k = 0; k <= 9; ++k) {
    const double off = std::abs(eye.seen(std::remainder(back(k), 1.0)));
    if (off < least) {
      least = off;
      best = k;
    }
  }
  const double index = back(0);
  const double whole = best == 0 ? std::round(index) : std::floor(index);
  EyeRow row;
  row.sheet = 1;
  row.place = vernier.id;
  row.numbers[0] = middle + whole + best / 10.0;
  return row;
}

}  // namespace versolay::testing_support
