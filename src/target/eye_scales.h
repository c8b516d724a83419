// Scales of a target for reading by eye, without a scanner: their numbers and their drawing.
//
// Graticule: a pale net of lines, 0.5 mm apart, in every disc for a prick. Each side and direction
// has numbers of its own, so that no reading can be taken for another:
//
//                     middle   printed range       numbers grow, as one looks at that side
//     front across      13        11 .. 15         to the right
//     front down        23        21 .. 25         downward
//     back across       33        31 .. 35         to the right
//     back down         43        41 .. 45         downward
//
// Vernier: lines 1.0 mm apart on the front, 0.9 mm apart on the back, read from the back against a
// light. With the back displaced by d along the scale, its line 0 is between the lines a and
// a + 1 of the front, and its line k coincides with a line of the front:
//
//     middle + d + 0.9 k = a + k     hence     d = a + 0.1 k - middle
//
// The reading a + k/10 grows to the right (across, middle 3) or downward (down, middle 7), seen
// from the back.
// Source  the direct vernier, P. Vernier 1631; any textbook of metrology (from memory).
#pragma once

#include "core/drawing.h"
#include "target/target_geometry.h"

namespace versolay {

inline constexpr double kGraticulePitchMm = 0.5;
inline constexpr int kGraticuleReachMm = 2;    // the outermost lines, from the middle
inline constexpr double kGraticuleInk = 0.22;  // pale: a scan must not take a line for a hole

/// Number of the middle line.
int graticule_middle(Side side, ScaleAxis axis);

inline constexpr double kVernierStepMm = 0.1;   // difference of the two pitches
inline constexpr int kVernierDivisions = 10;    // lines 0 to 9 of the back
inline constexpr double kVernierPitchMm = 0.9;  // of the back; that of the front is 1
inline constexpr int kVernierReach = 2;         // whole millimetres to both sides of the middle

/// Number of the front's line that coincides with line 0 of the back when nothing is displaced.
int vernier_middle(ScaleAxis axis);

/// Place on the verso page of the back's line `k` (which may lie between two lines).
Point<VersoMm> vernier_line(const VernierPlace& vernier, double k);

void add_graticule(Drawing& drawing, const Point<PageMm>& centre, Side side);
void add_vernier(Drawing& drawing, const VernierPlace& vernier, Side side, TurnAxis axis);

}  // namespace versolay
