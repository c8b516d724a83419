#include "app/measure.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <mutex>
#include <optional>
#include <tuple>
#include <variant>

#include "app/rejected_text.h"
#include "app/scan_overlays.h"
#include "core/files.h"
#include "core/parallel.h"
#include "core/translation.h"
#include "registration/fed_round.h"
#include "registration/page_order.h"
#include "registration/readings_json.h"
#include "registration/sheet_registration.h"

namespace versolay {
namespace {

constexpr const char* kUnreadableFile = "unreadable_file";
/// Grey planes of all scans in work together: one scan of A3 at 1200 dpi, or some of A4 at 600.
constexpr std::int64_t kPlaneBytes = std::int64_t{512} << 20;

/// One page of one scan file: the unit of parallel work.
struct ScanPage {
  std::filesystem::path file;
  int page = 1;
  int pages = 1;
};

using PageResult = std::variant<std::monostate, SideReading, RejectedInput>;

std::vector<ScanPage> pages_of(const MeasureRequest& request,
                               std::vector<RejectedInput>& rejected) {
  std::vector<ScanPage> pages;
  for (const auto& file : request.scans) {
    if (!std::filesystem::exists(file)) throw Error(file.string(), tr("does not exist"));
    try {
      const int count = count_pages(file);
      for (int page = 1; page <= count; ++page) pages.push_back({file, page, count});
    } catch (const Error& e) {
      rejected.push_back({file.filename().string(), kUnreadableFile, e.problem()});
    }
  }
  return pages;
}

std::string name_of(const ScanPage& page) {
  const std::string base = page.file.filename().string();
  return page.pages > 1 ? tr("{}, page {}", base, page.page) : base;
}

PageResult run(const ScanPage& page, std::size_t number, PlaneBudget& budget,
               ScanOverlays* overlays) {
  try {
    ScanLimits limits;
    limits.budget = &budget;
    const Scan scan = load_page(page.file, page.page, limits);
    Result<SideReading> side = read_side(scan);
    if (overlays != nullptr) overlays->keep(number, scan, side);
    if (side) return std::move(side).value();
    return RejectedInput{scan.name(), side.refusal().code, side.refusal().message};
  } catch (const Error& e) {
    return RejectedInput{name_of(page), kUnreadableFile, e.problem()};
  } catch (const std::bad_alloc&) {
    return RejectedInput{name_of(page), kUnreadableFile,
                         tr("There is not enough memory to read it. Scan at 300 dpi.")};
  } catch (const std::exception& e) {  // a fault of ours: it must not cost the other scans
    return RejectedInput{name_of(page), "scan_fault",
                         tr("Reading this picture failed ({}). Scan the sheet again; if that does "
                            "not help, send the picture to the makers of this program.",
                            e.what())};
  }
}

std::vector<PageResult> run_all(const std::vector<ScanPage>& pages, int threads,
                                ScanOverlays* overlays, const Progress& progress) {
  std::vector<PageResult> results(pages.size());
  PlaneBudget budget(kPlaneBytes);
  std::mutex mutex;
  int done = 0;
  for_each_item(static_cast<int>(pages.size()), 1, threads, [&] {
    return [&](int item) {
      const auto i = static_cast<std::size_t>(item);
      results[i] = run(pages[i], i, budget, overlays);
      const std::scoped_lock lock(mutex);
      tell(progress, ++done, static_cast<int>(pages.size()), tr("Reading scans"));
    };
  });
  return results;
}

/// The target (paper and turn) that most scans show; readings of one file are of one set-up.
struct TargetKey {
  double width_mm;
  double height_mm;
  Turn turn;
  auto operator<=>(const TargetKey&) const = default;
};
TargetKey key_of(const PageIdentity& identity) {
  return {identity.paper.width_mm, identity.paper.height_mm, identity.turn};
}

/// That of A4 when there is no scan.
TargetKey target_of_most(const std::vector<SideReading>& sides) {
  std::map<TargetKey, int> votes;
  for (const SideReading& side : sides) ++votes[key_of(side.identity)];
  const auto most = std::max_element(
      votes.begin(), votes.end(), [](const auto& a, const auto& b) { return a.second < b.second; });
  if (most != votes.end()) return most->first;
  const Paper a4 = parse_paper("a4");
  return {a4.width_mm, a4.height_mm, Turn::long_edge};
}

std::string scan_names(const SheetScans& scans) {
  std::string joined;
  for (const auto* side : {&scans.recto, &scans.verso}) {
    for (const SideReading& scan : *side) joined += (joined.empty() ? "" : ", ") + scan.scan_name;
  }
  return joined;
}

const SideReading& a_scan_of(const SheetScans& scans) {
  return (scans.recto.empty() ? scans.verso : scans.recto).front();
}

/// By name, so that the order on the command line does not matter; of one name in two folders by
/// what they show.
void sort_scans(std::vector<SideReading>& scans) {
  const auto order = [](const SideReading& scan) {
    const Point<ScanPx> ring = scan.rings.front().seen;
    return std::tuple(scan.scan_name, scan.identity.sheet, scan.identity.side, ring.x, ring.y);
  };
  std::sort(scans.begin(), scans.end(),
            [&](const SideReading& a, const SideReading& b) { return order(a) < order(b); });
}

bool same_picture(const SideReading& a, const SideReading& b) {
  return a.rings.size() == b.rings.size() &&
         std::equal(a.rings.begin(), a.rings.end(), b.rings.begin(),
                    [](const RingUse& x, const RingUse& y) { return x.seen == y.seen; });
}

/// One picture in two files is one measurement. Precondition: sorted by name.
void leave_out_copies(std::vector<SideReading>& sides, std::vector<RejectedInput>& rejected) {
  std::vector<SideReading> originals;
  for (SideReading& side : sides) {
    const auto original =
        std::find_if(originals.begin(), originals.end(),
                     [&](const SideReading& other) { return same_picture(side, other); });
    if (original == originals.end()) {
      originals.push_back(std::move(side));
    } else {
      rejected.push_back(
          {side.scan_name, "copy",
           tr("This is the same picture as {}. It counts once.", original->scan_name)});
    }
  }
  sides = std::move(originals);
}

/// A sheet of a print run of a target.
struct SheetKey {
  TargetKey target;
  std::string run;
  int sheet;
  auto operator<=>(const SheetKey&) const = default;
};
SheetKey key_of(const SideReading& side) {
  return {key_of(side.identity), side.identity.run, side.identity.sheet};
}
using Verdicts = std::map<SheetKey, SheetVerdict>;

Refusal other_target(const PageIdentity& identity) {
  return {"other_target", tr("This page is of another target ({} paper, {} turn) than most of the "
                             "scans. Measure each target by itself.",
                             identity.paper.name, to_string(identity.turn))};
}

/// A fault of ours in one sheet must not cost the others.
Result<SheetReading> registered(const SheetScans& scans, DatumChoice datum) {
  try {
    return register_sheet(scans, datum);
  } catch (const std::exception& e) {
    return Refusal{"sheet_fault",
                   tr("Comparing its two sides failed ({}). Scan both sides again.", e.what())};
  }
}

Readings register_all(std::vector<SideReading> sides, std::vector<RejectedInput> rejected,
                      DatumChoice datum, Verdicts& verdicts) {
  sort_scans(sides);
  leave_out_copies(sides, rejected);
  Readings readings;
  readings.created = utc_now();
  const TargetKey target = target_of_most(sides);
  readings.paper = paper_of_size(target.width_mm, target.height_mm);
  readings.turn = target.turn;

  std::map<SheetKey, SheetScans> sheets;
  for (SideReading& side : sides) {
    const SheetKey key = key_of(side);
    if (key.target != target) {
      const Refusal refusal = other_target(side.identity);
      verdicts.insert_or_assign(key, refusal);
      rejected.push_back({side.scan_name, refusal.code, refusal.message});
      continue;
    }
    SheetScans& scans = sheets[key];
    (side.identity.side == Side::recto ? scans.recto : scans.verso).push_back(std::move(side));
  }
  std::vector<RefusedSheet> refused;
  for (auto& [key, scans] : sheets) {
    Result<SheetReading> sheet = registered(scans, datum);
    verdicts.insert_or_assign(key, sheet);
    if (sheet) {
      readings.sheets.push_back(std::move(sheet).value());
    } else {
      refused.push_back({std::move(scans), sheet.refusal()});
    }
  }
  name_wrong_backs(refused);
  for (const RefusedSheet& sheet : refused) {
    const SideReading& any = a_scan_of(sheet.scans);
    verdicts.insert_or_assign(key_of(any), sheet.refusal);
    rejected.push_back({scan_names(sheet.scans), sheet.refusal.code,
                        tr("Sheet {}: {}", any.identity.sheet, sheet.refusal.message)});
  }
  std::sort(rejected.begin(), rejected.end(), [](const RejectedInput& a, const RejectedInput& b) {
    return std::tie(a.file, a.message) < std::tie(b.file, b.message);
  });
  readings.rejected = std::move(rejected);
  return readings;
}

std::vector<std::filesystem::path> files_of(const std::vector<ScanPage>& pages) {
  std::vector<std::filesystem::path> files;
  for (const ScanPage& page : pages) files.push_back(page.file);
  return files;
}

/// Tells the sheets that were printed turned half round in the frame of the printer.
void turn_those_fed_round(const std::set<int>& fed_round, Readings& readings) {
  std::set<int> not_read = fed_round;
  for (SheetReading& sheet : readings.sheets) {
    if (!fed_round.contains(sheet.sheet)) continue;
    sheet = turned_round(std::move(sheet));
    not_read.erase(sheet.sheet);
  }
  for (const int sheet : not_read) {
    readings.rejected.push_back({fmt::format("--fed-round {}", sheet), "fed_round_not_read",
                                 tr("Sheet {} is named as fed round, but was not read.", sheet)});
  }
}

/// No scan at all could be opened: the files are at fault, not what they show.
void require_a_readable_file(const std::vector<RejectedInput>& rejected) {
  const bool none = std::all_of(rejected.begin(), rejected.end(),
                                [](const RejectedInput& r) { return r.code == kUnreadableFile; });
  if (!none || rejected.empty()) return;
  if (rejected.size() == 1) throw Error(rejected.front().file, rejected.front().message);
  throw Error("", tr("none of these files can be read\n{}", rejected_text(rejected)));
}

}  // namespace

Readings measure(const MeasureRequest& request, const Progress& progress) {
  if (request.scans.empty()) throw Error("measure", tr("name the scans to read"));
  check_output(request.out, request.replace);

  std::vector<RejectedInput> rejected;
  const std::vector<ScanPage> pages = pages_of(request, rejected);
  std::optional<ScanOverlays> overlays;
  if (request.overlay) overlays.emplace(*request.overlay, files_of(pages), request.replace);
  std::vector<SideReading> sides;
  for (PageResult& result :
       run_all(pages, request.threads, overlays ? &*overlays : nullptr, progress)) {
    if (auto* side = std::get_if<SideReading>(&result)) {
      sides.push_back(std::move(*side));
    } else if (auto* failed = std::get_if<RejectedInput>(&result)) {
      rejected.push_back(std::move(*failed));
    }
  }
  Verdicts verdicts;
  const bool none = sides.empty();
  Readings readings = register_all(std::move(sides), std::move(rejected), request.datum, verdicts);
  if (none) require_a_readable_file(readings.rejected);
  turn_those_fed_round(request.fed_round, readings);
  if (!readings.sheets.empty()) {
    write_file_atomically(request.out, to_text(json_of(readings)), request.replace);
  }
  if (overlays) {  // after the readings: a picture that cannot be written must not cost them
    overlays->write([&](const SideReading& side) -> const SheetVerdict* {
      const auto verdict = verdicts.find(key_of(side));
      return verdict == verdicts.end() ? nullptr : &verdict->second;
    });
  }
  return readings;
}

Refusal no_sheets(const Readings& readings) {
  return {"no_sheets", tr("No sheet could be read.\n{}", rejected_text(readings.rejected))};
}

}  // namespace versolay
