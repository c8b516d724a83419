#include "rehearse/settings.h"

#include <algorithm>

#include "core/findings.h"
#include "core/numbers.h"
#include "rehearse/findings.h"

namespace versolay::rehearse {
namespace {

void require(const char* name, double value, double low, double high) {
  if (value >= low && value <= high) return;
  throw BadField(name, findings::out_of_range(value, low, high));
}

const char* name_of(HolesMade made) {
  switch (made) {
    case HolesMade::none:
      return "none";
    case HolesMade::punched:
      return "punched";
    case HolesMade::pricked:
      return "pricked";
    case HolesMade::both:
      break;
  }
  return "both";
}

const char* name_of(DpiMetadata metadata) {
  if (metadata == DpiMetadata::right) return "right";
  return metadata == DpiMetadata::wrong ? "wrong" : "missing";
}

const char* name_of(ImageKind kind) {
  if (kind == ImageKind::png) return "png";
  return kind == ImageKind::jpeg ? "jpeg" : "tiff";
}

const char* name_of(Coverage coverage) {
  if (coverage == Coverage::whole) return "whole";
  return coverage == Coverage::halves ? "halves" : "shifted";
}

Json json_of(const Registration& r) {
  Json json;
  for (std::size_t i = 0; i < kRegistrationKeys.size(); ++i) {
    json[std::string(kRegistrationKeys[i])] = r.vec()[static_cast<int>(i)];
  }
  return json;
}

Json json_of(const PassSettings& s) {
  return {{"mean", json_of(s.mean)},
          {"feed_sd", json_of(s.feed_sd)},
          {"lay_sd", json_of(s.lay_sd)},
          {"printed_scale_x_ppm", s.printed_scale_x_ppm},
          {"printed_scale_y_ppm", s.printed_scale_y_ppm},
          {"passes", s.passes},
          {"front_share", s.front_share},
          {"turned_the_wrong_way", s.turned_the_wrong_way},
          {"growth_x_ppm", s.growth_x_ppm},
          {"growth_y_ppm", s.growth_y_ppm}};
}

Json json_of(const InkSettings& s) {
  return {{"dot_gain_um", s.dot_gain_um},
          {"spread_um", s.spread_um},
          {"raggedness_um", s.raggedness_um},
          {"feed_bleed_um", s.feed_bleed_um},
          {"swath_mm", s.swath_mm},
          {"swath_jitter_um", s.swath_jitter_um},
          {"roller_um", s.roller_um},
          {"roller_mm", s.roller_mm},
          {"missing_nozzles", s.missing_nozzles},
          {"density", s.density}};
}

Json json_of(const PaperSettings& s) {
  return {{"reflectance", s.reflectance},
          {"texture", s.texture},
          {"show_through", s.show_through},
          {"edge_slope_mrad", s.edge_slope_mrad},
          {"edge_bow_mm", s.edge_bow_mm},
          {"size_sd_mm", s.size_sd_mm},
          {"torn_corner_mm", s.torn_corner_mm},
          {"burr_shade", s.burr_shade},
          {"blots", s.blots},
          {"growth_between_scans_ppm", s.growth_between_scans_ppm}};
}

Json json_of(const HoleSettings& s) {
  return {{"made", name_of(s.made)},
          {"hand_error_mm", s.hand_error_mm},
          {"punch_diameter_mm", s.punch_diameter_mm},
          {"punch_distance_mm", s.punch_distance_mm},
          {"punch_tilt_mrad", s.punch_tilt_mrad},
          {"roundness_um", s.roundness_um},
          {"prick_roundness_um", s.prick_roundness_um},
          {"prick_smallest_mm", s.prick_smallest_mm},
          {"prick_largest_mm", s.prick_largest_mm},
          {"prick_taper", s.prick_taper},
          {"lean_um", s.lean_um},
          {"lean_sd_um", s.lean_sd_um},
          {"turn_half", s.turn_half}};
}

Json json_of(const ScannerSettings& s) {
  return {{"dpi", s.dpi},
          {"blur_um", s.blur_um},
          {"scale_x_ppm", s.scale_x_ppm},
          {"scale_y_ppm", s.scale_y_ppm},
          {"shear_mrad", s.shear_mrad},
          {"sag_um", s.sag_um},
          {"stretch_um", s.stretch_um},
          {"wobble_um", s.wobble_um},
          {"wobble_across_um", s.wobble_across_um},
          {"illumination_slope", s.illumination_slope},
          {"vignetting", s.vignetting},
          {"noise", s.noise},
          {"srgb_gamma", s.srgb_gamma},
          {"orientations", s.orientations},
          {"skew_deg", s.skew_deg},
          {"margin_mm", s.margin_mm},
          {"placement_mm", s.placement_mm},
          {"coverage", name_of(s.coverage)},
          {"bed_across_mm", s.bed_across_mm},
          {"bed_along_mm", s.bed_along_mm},
          {"shift_mm", s.shift_mm},
          {"turn_repeats", s.turn_repeats},
          {"background", s.background == Background::black_card ? "black card" : "white lid"},
          {"card_texture", s.card_texture},
          {"shadow_mm", s.shadow_mm},
          {"dust", s.dust},
          {"kind", name_of(s.kind)},
          {"jpeg_quality", s.jpeg_quality},
          {"dpi_metadata", name_of(s.dpi_metadata)},
          {"colour", s.colour}};
}

}  // namespace

void RehearsalSettings::validate() const {
  require("sheets", sheets, 0, 999);
  require("scans_per_side", scans_per_side, 1, 20);
  require("raster_ppi", raster_ppi, 150, 1200);
  require("threads", threads, 0, 256);
  require("dot_gain_um", ink.dot_gain_um, 0, 100);
  require("spread_um", ink.spread_um, 0, 200);
  require("raggedness_um", ink.raggedness_um, 0, 50);
  require("feed_bleed_um", ink.feed_bleed_um, 0, 200);
  require("swath_mm", ink.swath_mm, 1, 100);
  require("roller_mm", ink.roller_mm, 1, 1000);
  require("missing_nozzles", ink.missing_nozzles, 0, 50);
  require("density", ink.density, 0, 1);
  require("reflectance", paper.reflectance, 0.1, 1);
  require("torn_corner_mm", paper.torn_corner_mm, 0, 100);
  require("blots", paper.blots, 0, 1000);
  require("hand_error_mm", holes.hand_error_mm, 0, 5);
  require("punch_diameter_mm", holes.punch_diameter_mm, 1, 12);
  require("prick_smallest_mm", holes.prick_smallest_mm, 0.1, holes.prick_largest_mm);
  require("dpi", scanner.dpi, 50, 1200);
  require("blur_um", scanner.blur_um, 0, 300);
  require("skew_deg", scanner.skew_deg, 0, 12);
  require("margin_mm", scanner.margin_mm, 0, 100);
  require("bed_across_mm", scanner.bed_across_mm, 0, 1000);
  require("bed_along_mm", scanner.bed_along_mm, 0, 1000);
  require("shift_mm", scanner.shift_mm, 0, 100);
  require("jpeg_quality", scanner.jpeg_quality, 1, 100);
  require("dust", scanner.dust, 0, 10000);
  require("orientations", static_cast<double>(scanner.orientations.size()), 1, 4);
  for (int turned : scanner.orientations) {
    if (turned % 90 != 0 || turned < 0 || turned > 270) {
      throw BadField("orientations", findings::turn_of_the_scan_impossible(turned));
    }
  }
}

RehearsalSettings perfect_settings() {
  RehearsalSettings s;
  s.passes = {.mean = {},
              .feed_sd = {},
              .lay_sd = {},
              .printed_scale_x_ppm = 0.0,
              .printed_scale_y_ppm = 0.0};
  s.ink.dot_gain_um = s.ink.spread_um = s.ink.raggedness_um = s.ink.feed_bleed_um = 0;
  s.ink.swath_jitter_um = s.ink.roller_um = 0;
  s.ink.density = 1;
  s.paper.reflectance = 1;
  s.paper.texture = s.paper.show_through = 0;
  s.paper.edge_slope_mrad = s.paper.edge_bow_mm = s.paper.size_sd_mm = 0;
  s.paper.burr_shade = 0;
  s.paper.blots = 0;
  s.paper.growth_between_scans_ppm = 0;
  s.holes.hand_error_mm = s.holes.punch_tilt_mrad = 0;
  s.holes.roundness_um = s.holes.prick_roundness_um = 0;
  s.holes.lean_um = s.holes.lean_sd_um = s.holes.prick_taper = 0;
  s.scanner.blur_um = 0;
  s.scanner.scale_x_ppm = s.scanner.scale_y_ppm = s.scanner.shear_mrad = 0;
  s.scanner.sag_um = s.scanner.stretch_um = s.scanner.wobble_um = s.scanner.wobble_across_um = 0;
  s.scanner.illumination_slope = s.scanner.vignetting = s.scanner.noise = 0;
  s.scanner.srgb_gamma = false;
  s.scanner.orientations = {0};
  s.scanner.skew_deg = s.scanner.placement_mm = 0;
  s.scanner.card_texture = 0;
  s.scanner.dust = 0;
  return s;
}

Json json_of(const RehearsalSettings& s) {
  return {{"seed", s.seed},
          {"sheets", s.sheets},
          {"scans_per_side", s.scans_per_side},
          {"raster_ppi", s.raster_ppi},
          {"passes", json_of(s.passes)},
          {"ink", json_of(s.ink)},
          {"paper", json_of(s.paper)},
          {"holes", json_of(s.holes)},
          {"scanner", json_of(s.scanner)}};
}

}  // namespace versolay::rehearse
