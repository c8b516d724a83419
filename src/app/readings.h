// The command `readings`: a table to fill in by eye, and the readings that it gives.
#pragma once

#include <filesystem>

#include "registration/eye_table.h"
#include "versolay/sheet_readings.h"

namespace versolay {

struct EyeTemplateRequest {
  EyeMethod method = EyeMethod::holes;
  Paper paper;
  Turn turn = Turn::long_edge;
  int sheets = 10;
  char separator = ',';
  std::filesystem::path out;
  bool replace = false;
};

struct EyeReadingsRequest {
  std::filesystem::path table;
  EyeTarget given;
  std::filesystem::path out;
  bool replace = false;
};

struct EyeReadings {
  Readings readings;
  Notices notices;  // rows of the table that were left out
};

/// Writes the table. Throws Error on a bad request or a failed write.
void make_eye_template(const EyeTemplateRequest& request);

/// Reads the table and writes the readings.
/// @return a refusal when no sheet can be read from it; nothing is written then.
/// Throws Error when the table is malformed (read_eye_table) or the output cannot be written.
Result<EyeReadings> read_by_eye(const EyeReadingsRequest& request);

/// Paper and turn of a file that `target --geometry` wrote. Throws Error when it is not such a
/// file, or describes a target that this version does not make.
EyeTarget target_of_geometry(const std::filesystem::path& geometry);

}  // namespace versolay
