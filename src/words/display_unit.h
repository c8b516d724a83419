// The unit of distances in text for people. Files, and whatever programs read, keep millimetres.
#pragma once

namespace versolay {

enum class Units { mm, px, inches };

/// The unit of distances in text; millimetres by default.
struct DisplayUnit {
  Units units = Units::mm;
  const char* name = "mm";
  double per_mm = 1.0;
  /// As fine as so many decimals of a millimetre, or a little finer.
  int decimals(int of_mm) const;
};

/// @param ppi  of the pixels, where they are asked for.
DisplayUnit display_unit(Units units, double ppi);

}  // namespace versolay
