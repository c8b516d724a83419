#include "measure/side_reading.h"

#include <algorithm>
#include <cmath>

#include "core/numbers.h"
#include "core/translation.h"
#include "measure/carriage_jerk.h"
#include "measure/near_marks.h"
#include "measure/page_content.h"
#include "measure/page_rings.h"
#include "measure/photograph_check.h"
#include "measure/picture_check.h"
#include "measure/scan_break.h"
#include "measure/scanner_map.h"
#include "measure/smear.h"

namespace versolay {
namespace {

constexpr int kLeastSidePx = 200;
constexpr double kLeastBelievableScale = 0.85;
constexpr double kMostBelievableScale = 1.15;
constexpr double kLeastRingShare = 0.5;  // of those that the picture shows
constexpr double kUsualRingShare = 0.9;  // less is worth a remark

Notice carriage_jerks(const std::string& scan_name, double jerk_mm) {
  return {"carriage_jerks",
          tr("The scanner jerked along {} by about {:.2f} mm every few millimetres, too fast "
             "for the marks to follow: offsets can be wrong by as much. Scan at a higher "
             "resolution, which is slower, and scan each side a second time, turned round.",
             scan_name, jerk_mm)};
}

Refusal too_few_rings(int found, int expected, PictureKind kind) {
  if (kind == PictureKind::photograph) {
    return {"too_few_marks",
            tr("This looks like a photograph: only {} of {} rings of this page can be read. Hold "
               "the camera still and straight above the sheet, in even light, so that the sheet "
               "fills the picture and is sharp all over.",
               found, expected)};
  }
  return {"too_few_marks", tr("Only {} of {} rings of this page can be read. Press the sheet flat, "
                              "clean the glass and scan again at 300 dpi or more.",
                              found, expected)};
}

/// The tags of the one sheet that this picture should show.
Result<std::vector<TagSighting>> tags_of_one_sheet(const Scan& scan) {
  const std::vector<TagSighting> all = find_page_tags(scan);
  if (all.empty()) return why_no_target(scan);
  std::vector<TagSighting> tags = agreeing_tags(all);
  if (tags.size() < 2) {
    const Refusal reason = why_no_target(scan);
    if (reason.code == "mirrored") return reason;
    return Refusal{"too_few_marks", tr("Only one corner tag of the sheet can be seen. Scan the "
                                       "whole sheet, flat and with its corners on the glass.")};
  }
  if (all.size() >= 2 * tags.size()) {
    return Refusal{
        "mixed_marks",
        tr("This scan shows more than one sheet. Scan one side of one sheet at a time.")};
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
  for (std::size_t i = 0; i < flat.size(); ++i) {
    const PagePair& ring = rings.rings[i];
    reading.rings.push_back({ring.scan, ring.page, map->kept()[i]});
    reading.rings_found += map->kept()[i] ? 1 : 0;
  }
  if (view.kind() == PictureKind::scan) {
    if (const auto at_fault = find_scan_break(flat, *map)) {
      reading.warnings.push_back(
          {"scan_lines_lost",
           tr("A part of {} is displaced by {} mm against the rest: the scanner lost or repeated "
              "lines, or the sheet moved while it was scanned. Scan this side again.",
              reading.scan_name, format_fixed(at_fault->step_mm, 2))});
    }
  }
  const auto seen = static_cast<int>(rings.rings.size());
  if (view.kind() == PictureKind::scan && seen < kUsualRingShare * reading.rings_expected) {
    reading.warnings.push_back(
        {"marks_missing",
         tr("Only {} of {} marks are seen on {}: a part of it is covered, blurred or not scanned. "
            "Scan this side again.",
            seen, reading.rings_expected, reading.scan_name)});
  }
  if (const double smear = smear_of(rings.tails); is_smeared(smear)) {
    reading.warnings.push_back(
        {"scan_smeared",
         tr("The marks of {} have a tail to one side ({} % of their blackness): the scanner does "
            "not follow fast enough, or the sheet moved. Holes and marks may be displaced by "
            "different amounts. Scan this side again, more slowly.",
            reading.scan_name, format_number(100 * smear, 1))});
  }
  reading.camera = view.camera();
  reading.page_rms_mm = view.residual_rms_mm();
  reading.page_from_scan = view.page_from_scan();
  return PageMap{std::move(rings), view, *map};
}

}  // namespace

Result<SideReading> read_side(const Scan& scan) {
  const GreyImage& grey = scan.grey;
  if (std::min(grey.width, grey.height) < kLeastSidePx) {
    return Refusal{
        "no_marks",
        tr("This picture is only {} x {} pixels large. Scan the whole sheet at 200 dpi or more.",
           grey.width, grey.height)};
  }
  const auto tags = tags_of_one_sheet(scan);
  if (!tags) return tags.refusal();
  const auto content = page_content(grey, tags.value());
  if (!content) {
    return Refusal{"identity_unreadable",
                   tr("The square codes near the corners cannot be read, so the sheet is not "
                      "known. Scan again at 300 dpi or more, without cropping or sharpening. With "
                      "a camera: nearer, held still, in better light.")};
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
  if (is_a_gear(jerk_mm)) reading.warnings.push_back(carriage_jerks(scan.name(), jerk_mm));
  reading.places = feature_places(seen.features, map, view, jerk_mm);
  return reading;
}

}  // namespace versolay
