#include "measure/page_rings.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "measure/page_content.h"
#include "measure/ring.h"
#include "target/geometry.h"

namespace versolay {
namespace {

constexpr double kFirstReachMm = 1.2;   // after the tags
constexpr double kSecondReachMm = 0.6;  // after the first rings
constexpr double kTagLimitMm = 3.0;     // from the map of the others: this tag is none of ours
constexpr double kMostRingsShare = 0.95;
constexpr double kRingClearMm = 0.8;  // around a ring, to count as shown by the picture

/// Of the outer radius of a ring: farther off, what is beside it is taken for it.
constexpr double kReachShare = 0.5;
/// Of the pixels' sides: no scanner has a finer step one way than eight times the other.
constexpr double kLeastProportion = 1.0 / 8;

std::vector<PagePair> tag_corners(const std::vector<TagSighting>& tags,
                                  const TargetGeometry& geometry, Side side) {
  std::vector<PagePair> pairs;
  for (const Mark& mark : geometry.marks) {
    if (mark.kind != MarkKind::tag || mark.side != side) continue;
    for (const TagSighting& tag : tags) {
      if (tag.meaning.position != mark.number) continue;
      const double half = tag.side_mm() / 2;
      const std::array<Point<PageMm>, 4> corners = {{{mark.at.x - half, mark.at.y - half},
                                                     {mark.at.x + half, mark.at.y - half},
                                                     {mark.at.x + half, mark.at.y + half},
                                                     {mark.at.x - half, mark.at.y + half}}};
      for (std::size_t i = 0; i < 4; ++i) pairs.push_back({tag.corners[i], corners[i]});
    }
  }
  return pairs;
}

/// From three tags or more the scales of both axes are known; from two, that across their line only
/// by the size of the tags themselves, which counts when the pixels are plainly not square.
/// @return nullopt when fewer than two of them are where this page has a tag, or they are of no
///         size: tags that somebody else printed.
std::optional<Affine<ScanPx, PageMm>> coarse_map(const std::vector<TagSighting>& tags,
                                                 const TargetGeometry& geometry, Side side) {
  std::vector<PagePair> corners = tag_corners(tags, geometry, side);
  if (corners.size() < 2 * 4) return std::nullopt;
  if (tags.size() >= 3) {
    const auto fit = fit_page(corners, kTagLimitMm, 3 * 4);
    if (fit) return fit->page_from_scan.inverse();
  }
  double proportion = 0.0;  // of the pixels: down over across
  for (const TagSighting& tag : tags) {
    const Eigen::Vector2d px_per_mm = tag.px_per_mm();
    proportion += px_per_mm.x() / px_per_mm.y() / static_cast<double>(tags.size());
  }
  if (!(proportion > kLeastProportion && proportion < 1.0 / kLeastProportion)) return std::nullopt;
  if (std::abs(proportion - 1.0) < 0.05) proportion = 1.0;
  for (PagePair& corner : corners) corner.scan.y *= proportion;
  const Affine<ScanPx, PageMm> square = fit_similarity(corners);
  const Eigen::Vector2d back(1.0, 1.0 / proportion);
  return Affine<ScanPx, PageMm>{back.asDiagonal() * square.linear(),
                                back.cwiseProduct(square.offset())};
}

template <class Use>
void for_each_ring(const TargetGeometry& geometry, Side side, const Use& use) {
  for (const Mark& mark : geometry.marks) {
    if (mark.kind == MarkKind::ring && mark.side == side) use(mark.at);
  }
}

std::vector<PagePair> find_rings_roughly(const Sampler& image, const TargetGeometry& geometry,
                                         Side side, const PageView& view) {
  std::vector<PagePair> found;
  for_each_ring(geometry, side, [&](const Point<PageMm>& at) {
    const auto scan_from_page = view.scan_from_page_around(at);
    const double reach = std::min(kFirstReachMm, kReachShare * geometry.ring.outer_radius_mm);
    const auto seen = find_ring_roughly(image, scan_from_page, at, geometry.ring, reach);
    if (seen) found.push_back({scan_from_page(*seen), at});
  });
  return found;
}

PageRings find_rings(const Sampler& image, const TargetGeometry& geometry, Side side,
                     const PageView& view) {
  PageRings found;
  for_each_ring(geometry, side, [&](const Point<PageMm>& at) {
    const auto ring =
        find_ring(image, view.scan_from_page_around(at), at, geometry.ring, kSecondReachMm);
    if (!ring) return;
    found.rings.push_back({view.true_middle(at, ring->centre, geometry.ring.outer_radius_mm), at});
    found.stretches.push_back({ring->centre, ring->second_harmonic_mm});
    found.tails.push_back(ring->tail);
  });
  found.view = PageView::from_rings(found.rings, image.width_px(), image.height_px());
  return found;
}

PageRings see_rings_from(const Sampler& image, const TargetGeometry& geometry, Side side,
                         const PageView& first) {
  const auto rough = PageView::from_rings(find_rings_roughly(image, geometry, side, first),
                                          image.width_px(), image.height_px());
  if (!rough) return {};
  PageRings seen = find_rings(image, geometry, side, *rough);
  // The view of a camera grows from the part of the page where the first one held.
  while (seen.view && seen.view->kind() == PictureKind::photograph) {
    PageRings more = find_rings(image, geometry, side, *seen.view);
    if (more.rings.size() <= seen.rings.size()) break;
    seen = std::move(more);
  }
  return seen;
}

}  // namespace

std::vector<Point<PageMm>> rings_outside(const Sampler& image, const TargetGeometry& geometry,
                                         Side side, const PageView& view) {
  std::vector<Point<PageMm>> outside;
  for_each_ring(geometry, side, [&](const Point<PageMm>& at) {
    const auto scan_from_page = view.scan_from_page_around(at);
    const double margin_px =
        (geometry.ring.outer_radius_mm + kRingClearMm) * px_per_mm(scan_from_page);
    if (!image.inside(scan_from_page(at), margin_px)) outside.push_back(at);
  });
  return outside;
}

PageRings find_page_rings(const Sampler& image, const TargetGeometry& geometry, Side side,
                          const std::vector<TagSighting>& tags) {
  const auto rough = coarse_map(tags, geometry, side);
  if (!rough) return {};
  PageRings scanned = see_rings_from(image, geometry, side, PageView(*rough));
  const auto used = [](const PageRings& seen) { return seen.view ? seen.view->used() : 0; };
  if (used(scanned) >= kMostRingsShare * count_rings(geometry, side)) return scanned;
  const auto camera =
      PageView::of_camera(tag_corners(tags, geometry, side), image.width_px(), image.height_px());
  if (!camera) return scanned;
  PageRings photographed = see_rings_from(image, geometry, side, *camera);
  const bool better = photographed.view && photographed.view->kind() == PictureKind::photograph &&
                      used(photographed) > used(scanned);
  return better ? photographed : scanned;
}

}  // namespace versolay
