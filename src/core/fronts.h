// Where the fronts of a job lie on their sheets, read before their backs are printed.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "versolay/sheet_readings.h"

namespace versolay {

struct FrontReading {
  int sheet = 0;
  std::string run;  // code of the print run
  PrintLay lay;     // by the edges of the paper, in the recto view
  PrintedScale printed_scale;
  /// What the backs of the job would be printed with, by its marks; nullopt: a target.
  std::optional<Registration> correction;
  std::vector<std::string> files;  // the scans that went into it
  Notices warnings;
};

struct Fronts {
  Turn turn = Turn::long_edge;
  Paper paper;
  std::vector<FrontReading> fronts;  // by run and sheet
  std::vector<RejectedInput> rejected;
  std::string created;  // ISO 8601, UTC
};

}  // namespace versolay
