#include "measure/side_reading.h"

#include <algorithm>
#include <cmath>

#include "measure/carriage_jerk.h"
#include "measure/findings.h"
#include "measure/near_marks.h"
#include "measure/page_content.h"
#include "measure/page_rings.h"
#include "measure/pass_rings.h"
#include "measure/photograph_check.h"
#include "measure/picture_check.h"
#include "measure/scan_break.h"
#include "measure/scanner_map.h"
#include "measure/smear.h"

namespace versolay {
namespace {

// From memory: no page is read below these, and good scans lie far within them.
constexpr int kLeastSidePx = 200;
constexpr double kLeastBelievableScale = 0.85;
constexpr double kMostBelievableScale = 1.15;
constexpr double kLeastRingShare = 0.5;  // of those that the picture shows
constexpr double kUsualRingShare = 0.9;  // less is worth a remark

Refusal too_few_rings(int found, int expected, PictureKind kind) {
  return findings::too_few_marks(found, expected,
                                 Term{kind == PictureKind::photograph ? "photograph" : "scan"});
}

/// The tags of the one sheet that this picture should show.
Result<std::vector<TagSighting>> tags_of_one_sheet(const Scan& scan) {
  const std::vector<TagSighting> all = find_page_tags(scan);
  if (all.empty()) return why_no_target(scan);
  std::vector<TagSighting> tags = agreeing_tags(all);
  if (tags.size() < 2) {
    const Refusal reason = why_no_target(scan);
    if (reason == findings::mirrored) return reason;
    return findings::one_tag_only();
  }
  if (all.size() >= 2 * tags.size()) {
    return findings::mixed_marks();
  }
  return tags;
}

double jerk_of(const PageRings& seen, const RingSize& size, const ScannerMap& map) {
  if (seen.view->kind() == PictureKind::photograph) return 0.0;  // a camera has no carriage
  return carriage_jerk_sd_mm(seen.stretches, (size.outer_radius_mm + size.inner_radius_mm) / 2,
                             map);
}

/// Size of the print by the scanner's own resolution, along the axes of the page. No printer is off
/// by 15 %: then it is the file that names another resolution than the scan's.
PrintedScale printed_scale(const Affine<PageMm, ScanPx>& page_from_scan, const Scan& scan) {
  if (!scan.dpi_x || !scan.dpi_y) return {};
  const Eigen::Vector2d mm_per_px(25.4 / *scan.dpi_x, 25.4 / *scan.dpi_y);
  const Eigen::Matrix2d scan_mm_per_page_mm =
      mm_per_px.asDiagonal() * page_from_scan.inverse().linear();
  const Eigen::Vector2d scale = scan_mm_per_page_mm.colwise().norm();
  if (scale.minCoeff() < kLeastBelievableScale || scale.maxCoeff() > kMostBelievableScale)
    return {};
  return {scale.x(), scale.y()};
}

/// Rings to be expected in the part of the page that the picture shows. In the waste not every
/// place has a ring: as many are taken to be outside as there are places.
int rings_expected(const PageContent& content, std::size_t places_outside) {
  const auto places =
      static_cast<std::size_t>(count_rings(content.geometry, content.identity.side));
  return static_cast<int>(static_cast<std::size_t>(content.rings) * (places - places_outside) /
                          places);
}

void keep_rings(const std::vector<PagePair>& rings, const ScannerMap& map, SideReading& reading) {
  for (std::size_t i = 0; i < rings.size(); ++i) {
    reading.rings.push_back({rings[i].scan, rings[i].page, map.kept()[i]});
    reading.rings_found += map.kept()[i] ? 1 : 0;
  }
}

/// Faults of the picture that its rings show.
/// @param flat  the rings in the flattened picture.
void warn_of_faults(const PageRings& rings, const std::vector<PagePair>& flat,
                    const ScannerMap& map, SideReading& reading) {
  const bool scan = rings.view->kind() == PictureKind::scan;
  if (scan) {
    if (const auto at_fault = find_scan_break(flat, map)) {
      reading.warnings.push_back(
          findings::scan_lines_lost(reading.scan_name, Length{at_fault->step_mm}));
    }
  }
  const auto seen = static_cast<int>(rings.rings.size());
  if (scan && seen < kUsualRingShare * reading.rings_expected) {
    reading.warnings.push_back(
        findings::marks_missing(seen, reading.rings_expected, reading.scan_name));
  }
  if (const double smear = smear_of(rings.tails); is_smeared(smear)) {
    reading.warnings.push_back(findings::scan_smeared(reading.scan_name, Share{smear}));
  }
}

/// The rings, and through them the way from the picture to the page; the reading gets what they
/// say.
struct PageMap {
  PageRings rings;
  PageView view;
  ScannerMap map;  // from the flattened picture
};
Result<PageMap> map_page(const Sampler& image, const PageContent& content,
                         const std::vector<TagSighting>& tags, SideReading& reading) {
  const TargetGeometry& geometry = content.geometry;
  const Side side = content.identity.side;
  PageRings rings = find_page_rings(image, geometry, side, tags);
  if (!rings.view) return too_few_rings(0, content.rings, PictureKind::scan);
  const PageView view = *rings.view;
  reading.rings_outside = rings_outside(image, geometry, side, view);
  reading.rings_expected = rings_expected(content, reading.rings_outside.size());
  if (view.used() < kLeastRingShare * reading.rings_expected) {
    return too_few_rings(view.used(), reading.rings_expected, view.kind());
  }
  if (view.camera()) {
    if (const auto refusal = check_photograph(*view.camera(), geometry.paper)) return *refusal;
  }
  std::vector<PagePair> flat = rings.rings;
  for (PagePair& pair : flat) pair.scan = view.flattened(pair.scan);
  const auto map = ScannerMap::fit(flat, view.kind());
  if (!map) return too_few_rings(view.used(), reading.rings_expected, view.kind());
  keep_rings(rings.rings, *map, reading);
  warn_of_faults(rings, flat, *map, reading);
  reading.camera = view.camera();
  reading.page_rms_mm = view.residual_rms_mm();
  reading.page_from_scan = view.page_from_scan();
  return PageMap{std::move(rings), view, *map};
}

/// Adds what is seen of further passes.
void read_passes(const Scan& scan, const Sampler& image, const PageMap& page,
                 SideReading& reading) {
  if (reading.geometry.passes.empty()) return;
  PassesSeen seen = find_passes(scan, image, reading.geometry, reading.identity.side,
                                find_page_pass_tags(scan), page.view, page.map.ring_sd_mm());
  reading.pass_places = feature_places(seen.rings, page.map, page.view, 0.0);
  std::move(seen.warnings.begin(), seen.warnings.end(), std::back_inserter(reading.warnings));
}

}  // namespace

Result<SideReading> read_side(const Scan& scan) {
  const GreyImage& grey = scan.grey;
  if (std::min(grey.width, grey.height) < kLeastSidePx) {
    return findings::picture_too_small(grey.width, grey.height);
  }
  const auto tags = tags_of_one_sheet(scan);
  if (!tags) return tags.refusal();
  const auto content = page_content(grey, tags.value());
  if (!content) {
    return findings::identity_unreadable();
  }

  SideReading reading;
  reading.identity = content->identity;
  reading.correction = content->correction;
  reading.geometry = content->geometry;
  reading.scan_name = scan.name();
  reading.warnings = scan.warnings;
  const Sampler image(grey);
  const auto mapped = map_page(image, *content, tags.value(), reading);
  if (!mapped) return mapped.refusal();
  const auto& [rings, view, map] = mapped.value();
  if (!view.camera()) reading.printed_scale = printed_scale(view.page_from_scan(), scan);

  SeenFeatures seen = find_features(image, content->geometry, content->identity.side, view);
  for (Notice& smeared : check_marks_near_holes(scan.name(), rings.rings, map, view, seen)) {
    reading.warnings.push_back(std::move(smeared));
  }
  reading.misses = std::move(seen.misses);
  const double jerk_mm = jerk_of(rings, content->geometry.ring, map);
  if (is_a_gear(jerk_mm)) {
    reading.warnings.push_back(findings::carriage_jerks(scan.name(), Length{jerk_mm}));
  }
  reading.places = feature_places(seen.features, map, view, jerk_mm);
  read_passes(scan, image, mapped.value(), reading);
  return reading;
}

}  // namespace versolay
