// What a page of the target looks like: marks, hole places, check bars, words.
#pragma once

#include <string>
#include <vector>

#include "core/drawing.h"
#include "target/target_geometry.h"

namespace versolay {

/// What is printed on a page of the target for people (words/target_page_words.h).
struct TargetPageWords {
  std::string heading;   // "Sheet 3   FRONT"
  std::string identity;  // paper, run and turn
  std::string label;     // the user's own words; may be empty
  std::vector<std::string> instructions;
  std::vector<std::string> cautions;
  std::string scale_bar;        // under the bar of 100 mm
  std::string top;              // at the arrow to the top
  std::string middle_of_punch;  // at the marks for the middle of an office punch
};

/// What is printed on the page of a further pass.
struct PassPageWords {
  std::string pass;  // "pass 3, front"
};

/// The page of a further pass, the same for all sheets: its rings and its tag.
/// Precondition: geometry.passes has it.
Drawing pass_page(const TargetGeometry& geometry, int pass, Side side, const PassPageWords& words);

/// The page of the first pass: one side of one sheet. Nothing is drawn inside a clear disc or
/// within 5 mm of an edge.
Drawing target_page(const TargetGeometry& geometry, const PageIdentity& identity,
                    const TargetPageWords& words);

}  // namespace versolay
