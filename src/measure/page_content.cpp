#include "measure/page_content.h"

#include <algorithm>
#include <map>
#include <tuple>

#include "measure/code.h"
#include "target/geometry.h"
#include "target/waste_geometry.h"

namespace versolay {
namespace {

/// No page has more than eight; a picture full of tags is none of ours, and a code is looked for
/// beside each of them.
constexpr std::size_t kMostTags = 12;

}  // namespace

std::vector<TagSighting> agreeing_tags(const std::vector<TagSighting>& all) {
  const auto key = [](const TagSighting& tag) {
    return std::tuple{tag.meaning.production, tag.meaning.slot, tag.meaning.side};
  };
  std::map<std::tuple<bool, int, Side>, int> votes;
  for (const TagSighting& tag : all) ++votes[key(tag)];
  const auto most = std::max_element(
      votes.begin(), votes.end(), [](const auto& a, const auto& b) { return a.second < b.second; });
  std::vector<TagSighting> chosen;
  for (const TagSighting& tag : all) {
    if (key(tag) == most->first && chosen.size() < kMostTags) chosen.push_back(tag);
  }
  return chosen;
}

int count_rings(const TargetGeometry& geometry, Side side) {
  return static_cast<int>(std::count_if(
      geometry.marks.begin(), geometry.marks.end(),
      [&](const Mark& mark) { return mark.kind == MarkKind::ring && mark.side == side; }));
}

std::optional<PageContent> page_content(const GreyImage& scan,
                                        const std::vector<TagSighting>& tags) {
  for (const TagSighting& tag : tags) {
    if (tag.meaning.production) {
      const auto page = read_waste_code_near(scan, tag);
      if (!page) continue;
      return PageContent{page->identity,
                         waste_geometry(page->identity.paper, page->identity.turn, page->layout),
                         page->layout.rings, page->correction};
    }
    if (const auto identity = read_code_near(scan, tag)) {
      TargetGeometry geometry = target_geometry(identity->paper, identity->turn, identity->passes);
      const int rings = count_rings(geometry, identity->side);
      return PageContent{*identity, std::move(geometry), rings, std::nullopt};
    }
  }
  return std::nullopt;
}

}  // namespace versolay
