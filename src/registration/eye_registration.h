// From numbers read by eye to the registration of a sheet.
//
// A reading is a displacement along one direction at one place of the sheet. From a hole: its
// places on the two pages, each the hole's nominal place plus (number - number of the middle line),
// give e = M x_recto - x_verso, two observations. From a vernier: one, at the line that was read
// (target/eye_scales.h). Their standard deviation is that of an eye at such a scale, and of the
// steps in which the table was written.
#pragma once

#include "registration/eye_table.h"
#include "versolay/sheet_readings.h"

namespace versolay {

/// The registrations of all sheets of a table, with residual checks: a number that is off by one or
/// two divisions is named as misread, and left out where the others allow it. Sheets that cannot be
/// used are in Readings::rejected, with one of the codes too_few_readings, readings_disagree.
Readings register_by_eye(const EyeTable& table, const std::string& file);

/// The step in which these numbers were written: the largest of 0.5, 0.25, 0.2, 0.1 and 0.05 mm of
/// which all are multiples; else 0.01.
double reading_step_mm(const EyeTable& table);

}  // namespace versolay
