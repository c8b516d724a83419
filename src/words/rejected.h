// What was left out and why: one paragraph for each reason, whatever the number of files.
#pragma once

#include <string>
#include <vector>

#include "versolay/sheet_readings.h"
#include "words/display_unit.h"

namespace versolay::words {

/// Each as one finding: what is wrong, with the facts "files" and "sheet"; and the inverse.
std::vector<Finding> findings_of(const std::vector<RejectedInput>& rejected);
std::vector<RejectedInput> rejected_from(const std::vector<Finding>& findings);

struct RejectedText {
  Finding why;  // with the facts "files" and "sheets"
  std::string text;
};

/// One for each reason, in the order of its first file:
/// "Sheets 1, 2 and 3 (1.png, 2.png, 3.png and 3 more): The holes are too pale ...".
std::vector<RejectedText> rejected_texts(const std::vector<RejectedInput>& rejected,
                                         const DisplayUnit& unit = {});

/// The same as lines, each indented by two spaces.
std::string rejected_text(const std::vector<RejectedInput>& rejected, const DisplayUnit& unit = {});

}  // namespace versolay::words
