// The command `measure`: scans in, readings out.
#pragma once

#include <filesystem>
#include <optional>
#include <set>
#include <vector>

#include "core/fronts.h"
#include "core/progress.h"
#include "registration/sheet_registration.h"
#include "versolay/sheet_readings.h"

namespace versolay {

struct MeasureRequest {
  std::vector<std::filesystem::path> scans;  // files, or folders of them
  std::filesystem::path out;
  DatumChoice datum = DatumChoice::automatic;
  std::optional<std::filesystem::path> overlay;  // folder for annotated pictures
  std::set<int> fed_round;  // sheets whose pages were printed rotated by 180 degrees
  bool replace = false;
  int threads = 0;  // 0: one per core
};

/// The sheets that these scans show. `out`, `overlay` and `replace` do not count.
/// Throws Error when a file does not exist, or none of them can be opened.
Readings read_scans(const MeasureRequest& request, const Progress& progress);

/// Reads the scans, in parallel, and writes the readings. The result does not depend on the number
/// of threads or on the order of the scans. A scan or sheet that cannot be used is in
/// Readings::rejected. When no sheet could be read, nothing but overlays is written: see
/// no_sheets().
/// Memory: the grey planes of all scans in work take 512 MiB, or one plane when it is larger.
/// Throws Error when a named file does not exist, when none of the files can be opened, or when an
/// output cannot be written.
Readings run_measure(const MeasureRequest& request, const Progress& progress);

/// Reads scans of fronts alone, before their backs are printed, and writes where each lies on its
/// sheet; writes nothing if none was read: see no_fronts(). `datum`, `overlay` and `fed_round` are
/// ignored. Throws like run_measure().
Fronts run_measure_fronts(const MeasureRequest& request, const Progress& progress);

/// The refusal when no front was read.
Refusal no_fronts(const Fronts& fronts);

/// What to say when `readings` has no sheet.
Refusal no_sheets(const Readings& readings);

}  // namespace versolay
