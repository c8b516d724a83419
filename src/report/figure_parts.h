// What the figures share: layers, legends, words for numbers.
#pragma once

#include "report/document.h"
#include "report/shapes.h"
#include "versolay/registration.h"

namespace versolay {

/// The shapes that come next get this role.
Drawing& layer(Figure& figure, Role role);

/// A line of a legend: a mark drawn about the origin, and what it means.
struct LegendEntry {
  Role role = Role::frame;
  Drawing mark;
  std::string words;  // up to 45 characters
};
/// Draws the entries below each other from `top_mm` on. Returns where they end.
double add_legend(Figure& figure, double top_mm, const std::vector<LegendEntry>& entries);

/// Figures are drawn from y = 0 at their top; this gives them their height and moves the origin to
/// their middle.
Figure finished(Figure figure, double height_mm);

/// "0.34 mm right"; "0 mm" for nothing at all.
std::string across_mm_words(double dx_mm);
std::string along_mm_words(double dy_mm);
/// "0.044 degrees clockwise".
std::string turn_words(double rotation_mrad);

}  // namespace versolay
