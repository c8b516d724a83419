#include "measure/code.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "measure/code_reader.h"
#include "measure/reduce.h"
#include "measure/sampler.h"
#include "target/waste_geometry.h"

namespace versolay {
namespace {

// Of targets: a QR code within this distance of the middle of its tag.
constexpr double kTargetReachMm = 32.0;
// Finer pictures are reduced: 4.5 pixels a module of 0.5 mm.
constexpr double kTargetPxPerMm = 9.0;
// In the waste: the code and its white, looked at with so many pixels per mm, the first that will
// do; a module has 0.33 mm.
constexpr double kWastePatchMm[] = {kWasteCodeLengthMm + 1.0, kWasteTagCellMm + 0.6};
constexpr int kLeastCodePx = 16;  // the smallest QR code has 21 modules a side
constexpr int kMostSamples = 6;   // a side, of one pixel
constexpr double kWastePxPerMm[] = {12.0, 16.0, 9.0};

bool agrees(const PageIdentity& identity, const TagMeaning& tag) {
  return identity.side == tag.side && tag_slot_of_sheet(identity.sheet) == tag.slot;
}

std::optional<std::string> qr_text_near(const GreyImage& scan, const TagSighting& tag) {
  const Eigen::Vector2d px_per_mm = tag.px_per_mm();
  const Point<ScanPx> centre = tag.centre();
  const Eigen::Vector2d reach_px = kTargetReachMm * px_per_mm;
  const int x0 = std::max(0, static_cast<int>(centre.x - reach_px.x()));
  const int y0 = std::max(0, static_cast<int>(centre.y - reach_px.y()));
  const int x1 = std::min(scan.width, static_cast<int>(centre.x + reach_px.x()));
  const int y1 = std::min(scan.height, static_cast<int>(centre.y + reach_px.y()));
  const Reduction by{std::max(1, static_cast<int>(px_per_mm.x() / kTargetPxPerMm)),
                     std::max(1, static_cast<int>(px_per_mm.y() / kTargetPxPerMm))};
  if (x1 - x0 < kLeastCodePx * by.across || y1 - y0 < kLeastCodePx * by.down) return std::nullopt;
  return text_of_code(reduced_part(scan, x0, y0, x1 - x0, y1 - y0, by), CodeKind::qr);
}

/// A piece of the page, upright in the frame of the tag; white where the scan does not show it.
GreyImage patch(const GreyImage& scan, const TagSighting& tag, const Eigen::Vector2d& middle_mm,
                const Eigen::Vector2d& size_mm, double px_per_mm) {
  const auto& c = tag.corners;
  Eigen::Matrix2d scan_from_tag;  // px for each mm
  scan_from_tag << (c[1].vec() - c[0].vec() + c[2].vec() - c[3].vec()) / (2 * tag.side_mm()),
      (c[3].vec() - c[0].vec() + c[2].vec() - c[1].vec()) / (2 * tag.side_mm());
  GreyImage part;
  part.width = static_cast<int>(size_mm.x() * px_per_mm);
  part.height = static_cast<int>(size_mm.y() * px_per_mm);
  part.pixels.assign(static_cast<std::size_t>(part.width) * static_cast<std::size_t>(part.height),
                     255);
  // A finer scan is averaged over the pixels that become one.
  const double fine = std::sqrt(std::abs(scan_from_tag.determinant())) / px_per_mm;
  const int samples = std::clamp(static_cast<int>(std::lround(fine)), 1, kMostSamples);
  const Sampler sampler(scan);
  for (int y = 0; y < part.height; ++y) {
    for (int x = 0; x < part.width; ++x) {
      double sum = 0.0;
      for (int s = 0; s < samples * samples; ++s) {
        const Eigen::Vector2d px(x + (s % samples + 0.5) / samples,
                                 y + (s / samples + 0.5) / samples);
        const Eigen::Vector2d mm = middle_mm - size_mm / 2 + px / px_per_mm;
        const auto p = Point<ScanPx>::from(tag.centre().vec() + scan_from_tag * mm);
        sum += sampler.inside(p) ? sampler.at(p) : 255.0;
      }
      part.row(y)[x] = static_cast<std::uint8_t>(std::lround(sum / (samples * samples)));
    }
  }
  return part;
}

}  // namespace

std::optional<PageIdentity> read_code_near(const GreyImage& scan, const TagSighting& tag) {
  const auto text = qr_text_near(scan, tag);
  if (!text) return std::nullopt;
  const auto identity = identity_from_code_text(*text);
  if (!identity || !agrees(*identity, tag.meaning)) return std::nullopt;
  return identity;
}

std::optional<ProductionPage> read_waste_code_near(const GreyImage& scan, const TagSighting& tag) {
  const int corner = tag.meaning.position;  // 0 top left, then clockwise
  const Eigen::Vector2d inward(corner == 0 || corner == 3 ? 1.0 : -1.0, corner <= 1 ? 1.0 : -1.0);
  const Eigen::Vector2d lying(kWastePatchMm[0], kWastePatchMm[1]);
  for (const double px_per_mm : kWastePxPerMm) {
    for (const bool upright : {false, true}) {
      const Eigen::Vector2d middle = upright
                                         ? Eigen::Vector2d(0.0, inward.y() * kWasteCodeFromTagMm)
                                         : Eigen::Vector2d(inward.x() * kWasteCodeFromTagMm, 0.0);
      const Eigen::Vector2d size = upright ? Eigen::Vector2d(lying.reverse()) : lying;
      const auto text =
          text_of_code(patch(scan, tag, middle, size, px_per_mm), CodeKind::data_matrix);
      if (!text) continue;
      const auto page = production_page_from_digits(*text);
      if (page && page->identity.side == tag.meaning.side) return page;
    }
  }
  return std::nullopt;
}

}  // namespace versolay
