#include "core/display_unit.h"

#include <algorithm>

#include "core/numbers.h"

namespace versolay {
namespace {

DisplayUnit unit_in_use;

}  // namespace

std::optional<Units> units_from(std::string_view text) {
  if (text == "mm") return Units::mm;
  if (text == "px") return Units::px;
  if (text == "in") return Units::inches;
  return std::nullopt;
}

void say_distances_in(Units units, double ppi) {
  switch (units) {
    case Units::mm:
      unit_in_use = {};
      break;
    case Units::px:
      unit_in_use = {units, "px", artwork_px_from_mm(1.0, ppi)};
      break;
    case Units::inches:
      unit_in_use = {units, "in", 1 / kMmPerInch};
      break;
  }
}

int DisplayUnit::decimals(int of_mm) const {
  switch (units) {
    case Units::mm:
      return of_mm;
    case Units::px:
      return std::max(0, of_mm - 1);
    case Units::inches:
      return of_mm + 2;
  }
  return of_mm;
}

const DisplayUnit& display_unit() { return unit_in_use; }

}  // namespace versolay
