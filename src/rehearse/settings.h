// All settings of the simulated printer, hands and scanner. Zero disables a fault; with all
// settings zero, printing and scanning are perfect.
//
// Sizes of the faults: common practice and from memory, unless a source is given.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "core/json.h"
#include "versolay/registration.h"

namespace versolay::rehearse {

/// How the passes of the printer place their pages. The registration of a sheet is
/// mean + draw(feed_sd), each component on its own, made smaller by the growth of the paper.
struct PassSettings {
  Registration mean{0.42, -0.31, 0.9, -180.0, 140.0, 0.12};
  Registration feed_sd{0.15, 0.10, 0.7, 40.0, 40.0, 0.08};  // one sigma of each component
  /// One sigma of the position of the first pass on the sheet; the second pass has the same
  /// position, so that the registration is not affected.
  Registration lay_sd{0.4, 0.5, 0.6, 60.0, 60.0, 0.05};
  double printed_scale_x_ppm = 400.0;  // the printer prints this much too large, on both sides
  double printed_scale_y_ppm = -600.0;
  bool turned_the_wrong_way = false;  // the back page is upside down on its side
  double growth_x_ppm = 0.0;          // of the paper, between the passes
  double growth_y_ppm = 0.0;
  int passes = 1;  // of every sheet on each side, for a target of as many
  /// Share of the variance of feed_sd due to the first pass; 0: all of it is due to the back.
  double front_share = 0.0;
};

/// What ink does on paper.
struct InkSettings {
  double dot_gain_um = 30.0;     // a line gets this much wider, half at each of its edges
  double spread_um = 20.0;       // softness of an edge, one sigma; at least half the dot gain
  double raggedness_um = 6.0;    // of an edge, one sigma
  double feed_bleed_um = 10.0;   // a lower edge (seen with the page upright) moves down by this
  double swath_mm = 12.7;        // height of a pass of the print head
  double swath_jitter_um = 8.0;  // one sigma per swath, along the feed and across it
  double roller_um = 10.0;       // amplitude of a feed roller's out-of-round
  double roller_mm = 47.0;       // its circumference
  int missing_nozzles = 0;       // lines of one dot's height left white in every swath
  double density = 0.93;         // share of light that solid black takes away
};

struct PaperSettings {
  double reflectance = 0.86;
  double texture = 0.006;        // one sigma, share of the reflectance
  double show_through = 0.015;   // share of light that solid black on the other side takes away
  double edge_slope_mrad = 0.5;  // one sigma: how far each edge is from square
  double edge_bow_mm = 0.05;     // one sigma: how far each edge bulges at its middle
  double size_sd_mm = 0.1;       // one sigma of the position of each edge
  double torn_corner_mm = 0.0;   // legs of the triangle missing at one corner
  double burr_shade = 0.15;      // share of light by which the rim of a prick is lighter or darker
  int blots = 2;                 // stray drops of ink per side
  double growth_between_scans_ppm = 60.0;  // the sheet takes up moisture while it is scanned
};

enum class HolesMade { none, punched, pricked, both };

/// How a pair of hands makes the holes.
struct HoleSettings {
  HolesMade made = HolesMade::punched;
  double hand_error_mm = 1.0;        // farthest that a hole lands from its place
  double punch_diameter_mm = 6.0;    // ISO 838 (from memory)
  double punch_distance_mm = 80.0;   // ISO 838 (from memory): holes this far apart are a pair
  double punch_tilt_mrad = 8.0;      // one sigma: how far a pair is turned
  double roundness_um = 15.0;        // one sigma of the second and the third harmonic of a rim
  double prick_roundness_um = 25.0;  // the same for a prick
  double prick_smallest_mm = 0.6;    // diameters, front
  double prick_largest_mm = 1.0;
  double prick_taper = 0.15;  // the hole is narrower by this share at the back
  double lean_um = 60.0;      // length of the lean of the hand: back against front
  double lean_sd_um = 25.0;   // one sigma, each hole, each axis
  bool turn_half = true;      // the sheet is rotated by 180 degrees after half of the pricks
};

enum class Background { black_card, white_lid };
/// Of the two halves, where the size of the bed is not given.
inline constexpr double kHalvesOverlapMm = 8.0;

enum class DpiMetadata { right, wrong, missing };
enum class ImageKind { png, jpeg, tiff };

/// How the pictures of one side cover the sheet.
enum class Coverage {
  whole,    // one picture
  halves,   // two, the upper and the lower half of the page: a sheet larger than the bed
  shifted,  // two, the sheet pushed along its length: a sheet as long as the bed
};

struct ScannerSettings {
  double dpi = 300.0;
  double blur_um = 40.0;         // one sigma
  double scale_x_ppm = 1200.0;   // the picture is this much too large across
  double scale_y_ppm = -1500.0;  // and along the carriage
  double shear_mrad = 0.6;       // the carriage does not run square to the sensor
  double sag_um = 60.0;          // the sensor is bent: its ends see this much farther along
  double stretch_um = 40.0;      // even-order error of the lens, across, at the ends
  double wobble_um = 30.0;       // rms, of the carriage, along; slowly varying, new in each scan
  double wobble_across_um = 8.0;
  double illumination_slope = 0.04;
  double vignetting = 0.04;
  double noise = 0.006;                            // one sigma at white, share of white
  bool srgb_gamma = true;                          // false: grey values proportional to light
  std::vector<int> orientations{0, 90, 180, 270};  // page turned clockwise, as seen in the picture
  double skew_deg = 1.0;                           // uniform within +-; up to 12
  double margin_mm = 5.0;     // of the bed round the sheet; 0: exactly the paper, edges cut off
  double placement_mm = 2.0;  // uniform within +-
  Coverage coverage = Coverage::whole;
  /// Size of the picture along the sheet's width and along its height; 0: the sheet and the
  /// margins. Halves: as wide as the sheet, edges cut off; half as high, and half of
  /// kHalvesOverlapMm and one margin more. Shifted: exactly as high as the sheet.
  double bed_across_mm = 0.0;
  double bed_along_mm = 0.0;
  double shift_mm = 15.0;     // shifted: between the two pictures
  bool turn_repeats = false;  // repeats of a picture: every second one rotated by 180 degrees
  Background background = Background::black_card;
  double card_texture = 0.1;  // one sigma, share of the card's light
  double shadow_mm = 0.25;    // width of the shadow on a white lid
  int dust = 20;              // specks on the glass
  ImageKind kind = ImageKind::png;
  int jpeg_quality = 90;
  DpiMetadata dpi_metadata = DpiMetadata::right;
  bool colour = false;
};

struct RehearsalSettings {
  std::uint64_t seed = 1;
  int sheets = 0;  // 0: as many as the PDF has
  int scans_per_side = 1;
  double raster_ppi = 600;  // of the rendered pages
  int threads = 0;          // 0: one for each processor. The result does not depend on it
  PassSettings passes;
  InkSettings ink;
  PaperSettings paper;
  HoleSettings holes;
  ScannerSettings scanner;

  /// Throws Error naming the setting that is outside its range.
  void validate() const;
};

/// No fault at all: the registration is zero, the pictures are upright and perfect.
RehearsalSettings perfect_settings();

/// Every setting, for the record of a rehearsal.
Json json_of(const RehearsalSettings& settings);

}  // namespace versolay::rehearse
