// Limits of the fields of a request.
#pragma once

#include <string>
#include <string_view>

#include "core/findings.h"
#include "versolay/result.h"

namespace versolay {

/// Throws BadField on a field outside least .. most, and on NaN.
inline void require_in(const char* field, double value, double least, double most) {
  if (value >= least && value <= most) return;
  if (std::string_view(field).ends_with("_mm")) {
    throw BadField(field,
                   findings::length_out_of_range(Length{value}, Length{least}, Length{most}));
  }
  throw BadField(field, findings::out_of_range(value, least, most));
}

/// The same, without the least value itself.
inline void require_above(const char* field, double value, double above, double most) {
  if (!(value > above && value <= most)) {
    throw BadField(field, findings::not_above(value, above, most));
  }
}

}  // namespace versolay
