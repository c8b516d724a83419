// The text of the studies of a set of sheets.
#pragma once

#include <string>
#include <vector>

#include "versolay/printer_profile.h"
#include "versolay/study_results.h"

namespace versolay {

/// What one study says, beside the tests of a profile.
struct StudySentence {
  std::string name;
  double statistic = 0.0;
  double p_value = 1.0;
  std::string text;  // a plain sentence or two
};

/// One for each study that is there: how well the sheets were read, what the other turn would do,
/// what the sheets that were fed round show.
std::vector<StudySentence> study_words(const Studies& studies);

}  // namespace versolay
