// The notes at the top of a table for readings by eye: how to read, and pitfalls.
#pragma once

#include <string>
#include <vector>

#include "registration/eye_table.h"

namespace versolay::words {

/// For eye_table_template: without commas and semicolons.
std::vector<std::string> eye_table_notes(EyeMethod method);

}  // namespace versolay::words
