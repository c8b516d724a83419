// The unit in which distances are said to a person. Files, and what programs read, keep
// millimetres.
#pragma once

namespace versolay {

enum class Units { mm, px, inches };

/// What distances are said in; millimetres where nothing else is asked for.
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
