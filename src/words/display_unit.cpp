#include "words/display_unit.h"

#include <algorithm>

#include "core/numbers.h"

namespace versolay {

DisplayUnit display_unit(Units units, double ppi) {
  switch (units) {
    case Units::mm:
      break;
    case Units::px:
      return {units, "px", artwork_px_from_mm(1.0, ppi)};
    case Units::inches:
      return {units, "in", 1 / kMmPerInch};
  }
  return {};
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

}  // namespace versolay
