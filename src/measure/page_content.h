// Which page a scan shows, according to its tags and codes.
#pragma once

#include <optional>
#include <vector>

#include "measure/tags.h"
#include "scan/scan.h"
#include "target/target_geometry.h"
#include "versolay/frames.h"
#include "versolay/registration.h"

namespace versolay {

/// The tags that belong together: the kind of sheet, the side and the slot that most of them name.
/// Precondition: there is at least one.
std::vector<TagSighting> agreeing_tags(const std::vector<TagSighting>& all);

/// What the codes of a page say of it.
struct PageContent {
  PageIdentity identity;
  TargetGeometry geometry;
  int rings = 0;                           // printed on this side
  std::optional<Registration> correction;  // production sheets
};

/// Places of rings on one side of the page.
int count_rings(const TargetGeometry& geometry, Side side);

/// From the first code beside a tag that can be read. @return nullopt when none can.
std::optional<PageContent> page_content(const GreyImage& scan,
                                        const std::vector<TagSighting>& tags);

}  // namespace versolay
