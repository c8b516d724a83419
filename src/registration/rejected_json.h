// Scans that could not be used, in JSON files.
#pragma once

#include <vector>

#include "core/json.h"
#include "versolay/sheet_readings.h"

namespace versolay {

/// [{"file", "files", "sheet", and a finding}]
Json json_of(const std::vector<RejectedInput>& rejected);

/// `rejected` of a document; none where it is missing.
std::vector<RejectedInput> rejected_at(const JsonPlace& document);

}  // namespace versolay
