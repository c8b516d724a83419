#include "registration/stack_order.h"

#include <algorithm>

#include "core/natural_order.h"

namespace versolay {
namespace {

struct Page {
  std::string scan;
  std::string run;
  int sheet;
  Side side;
};

std::vector<Page> job_pages(const std::vector<SideReading>& sides) {
  std::vector<Page> pages;
  for (const SideReading& side : sides) {
    if (!side.correction) continue;
    pages.push_back({side.scan_name, side.identity.run, side.identity.sheet, side.identity.side});
  }
  std::stable_sort(pages.begin(), pages.end(),
                   [](const Page& a, const Page& b) { return natural_less(a.scan, b.scan); });
  return pages;
}

/// Front, back, front, back, ... or the other way round.
bool alternate(const std::vector<Page>& pages) {
  for (std::size_t i = 1; i < pages.size(); ++i) {
    if (pages[i].side == pages[i - 1].side) return false;
  }
  return pages.size() % 2 == 0;
}

}  // namespace

std::vector<MisplacedBack> misplaced_backs(const std::vector<SideReading>& sides) {
  const std::vector<Page> pages = job_pages(sides);
  if (!alternate(pages)) return {};
  std::vector<MisplacedBack> misplaced;
  std::size_t right = 0;
  for (std::size_t i = 0; i + 1 < pages.size(); i += 2) {
    const bool front_first = pages[i].side == Side::recto;
    const Page& front = pages[front_first ? i : i + 1];
    const Page& back = pages[front_first ? i + 1 : i];
    if (front.sheet == back.sheet && front.run == back.run) {
      ++right;
    } else {
      misplaced.push_back({front.run, front.sheet, back.sheet});
    }
  }
  if (right < 2 || right < misplaced.size()) return {};  // scanned in another order altogether
  return misplaced;
}

}  // namespace versolay
