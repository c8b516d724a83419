// From the readings of single scans to those of whole sheets.
#pragma once

#include <compare>
#include <map>
#include <string>
#include <vector>

#include "registration/sheet_registration.h"
#include "versolay/sheet_readings.h"

namespace versolay {

/// A sheet of a print run of a target.
struct SheetKey {
  double width_mm;
  double height_mm;
  Turn turn;
  std::string run;
  int sheet;
  std::partial_ordering operator<=>(const SheetKey&) const = default;
};

struct RegisteredSheets {
  Readings readings;
  /// What became of every sheet that a scan belongs to: the reading that was made of it, or why
  /// not.
  std::map<SheetKey, Result<SheetReading>> verdicts;

  /// nullptr: nothing is known of the sheet of this side.
  const Result<SheetReading>* verdict_of(const SideReading& side) const;
};

/// Sorts scans by sheet and side, and registers each sheet of the target that most of them show.
/// One picture in two files counts once. Sheets that cannot be read, and scans of other targets,
/// are added to `rejected`; the readings carry them all.
RegisteredSheets register_all(std::vector<SideReading> sides, std::vector<RejectedInput> rejected,
                              DatumChoice datum);

}  // namespace versolay
