#include "app/measure.h"

#include <algorithm>
#include <filesystem>
#include <mutex>
#include <optional>
#include <variant>

#include "core/files.h"
#include "core/parallel.h"
#include "measure/findings.h"
#include "overlay/scan_overlays.h"
#include "registration/fed_round.h"
#include "registration/findings.h"
#include "registration/front_lays.h"
#include "registration/fronts_json.h"
#include "registration/readings_json.h"
#include "registration/register_all.h"
#include "scan/scan_files.h"
#include "words/findings.h"
#include "words/rejected.h"

namespace versolay {
namespace {

/// Grey planes of all scans in work together: one scan of A3 at 1200 dpi, or some of A4 at 600.
constexpr std::int64_t kPlaneBytes = std::int64_t{512} << 20;

/// One page of one scan file: the unit of parallel work.
struct ScanPage {
  std::filesystem::path file;
  int page = 1;
  int pages = 1;
};

/// A file or page that could not be opened: the file is at fault, not what it shows.
struct Unopened {
  std::string name;
  Finding why;
};

using PageResult = std::variant<std::monostate, SideReading, RejectedInput, Unopened>;

std::vector<RejectedInput> rejections_of(const std::vector<Unopened>& unopened) {
  std::vector<RejectedInput> rejected;
  for (const Unopened& u : unopened) rejected.push_back({{u.name}, std::nullopt, u.why});
  return rejected;
}

std::vector<ScanPage> pages_of(const MeasureRequest& request, std::vector<Unopened>& unopened) {
  std::vector<ScanPage> pages;
  for (const auto& file : scan::scan_files(request.scans)) {
    try {
      const int count = count_pages(file);
      for (int page = 1; page <= count; ++page) pages.push_back({file, page, count});
    } catch (const Error& e) {
      unopened.push_back({file.filename().string(), e.problems().front()});
    }
  }
  return pages;
}

std::string name_of(const ScanPage& page) {
  const std::string base = page.file.filename().string();
  return scan::named_page(base, page.page, page.pages);
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
    return RejectedInput{{scan.name()}, std::nullopt, side.refusal()};
  } catch (const Error& e) {
    return Unopened{name_of(page), e.problems().front()};
  } catch (const std::bad_alloc&) {
    return Unopened{name_of(page), findings::no_memory_for_picture()};
  } catch (const std::exception& e) {  // a fault of ours: it must not cost the other scans
    return RejectedInput{{name_of(page)}, std::nullopt, findings::scan_fault(e.what())};
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
      tell(progress, ++done, static_cast<int>(pages.size()), Term{"reading scans"});
    };
  });
  return results;
}

std::vector<std::filesystem::path> files_of(const std::vector<ScanPage>& pages) {
  std::vector<std::filesystem::path> files;
  for (const ScanPage& page : pages) files.push_back(page.file);
  return files;
}

/// Converts the sheets that were printed rotated by 180 degrees to the frame of the printer.
void turn_those_fed_round(const std::set<int>& fed_round, Readings& readings) {
  std::set<int> not_read = fed_round;
  for (SheetReading& sheet : readings.sheets) {
    if (!fed_round.contains(sheet.sheet)) continue;
    sheet = turned_round(std::move(sheet));
    not_read.erase(sheet.sheet);
  }
  for (const int sheet : not_read) {
    readings.rejected.push_back({{}, sheet, findings::fed_round_not_read(sheet)});
  }
}

/// No scan at all could be opened.
void require_an_opened_file(const std::vector<Unopened>& unopened) {
  if (unopened.size() == 1) throw Error(unopened.front().name, unopened.front().why);
  throw Error("", findings::no_file_opened(words::findings_of(rejections_of(unopened))));
}

struct SidesRead {
  std::vector<SideReading> sides;
  std::vector<RejectedInput> rejected;
};

SidesRead read_sides(const MeasureRequest& request, ScanOverlays* overlays,
                     const std::vector<ScanPage>& pages, std::vector<Unopened> unopened,
                     const Progress& progress) {
  std::vector<SideReading> sides;
  std::vector<RejectedInput> not_understood;
  for (PageResult& result : run_all(pages, request.threads, overlays, progress)) {
    if (auto* side = std::get_if<SideReading>(&result)) {
      sides.push_back(std::move(*side));
    } else if (auto* failed = std::get_if<RejectedInput>(&result)) {
      not_understood.push_back(std::move(*failed));
    } else if (auto* closed = std::get_if<Unopened>(&result)) {
      unopened.push_back(std::move(*closed));
    }
  }
  if (sides.empty() && not_understood.empty()) require_an_opened_file(unopened);
  std::vector<RejectedInput> rejected = rejections_of(unopened);
  rejected.insert(rejected.end(), not_understood.begin(), not_understood.end());
  return {std::move(sides), std::move(rejected)};
}

/// All scans read, and the sheets that they show.
RegisteredSheets registered_scans(const MeasureRequest& request, ScanOverlays* overlays,
                                  const std::vector<ScanPage>& pages,
                                  std::vector<Unopened> unopened, const Progress& progress) {
  SidesRead read = read_sides(request, overlays, pages, std::move(unopened), progress);
  RegisteredSheets all =
      register_all(std::move(read.sides), std::move(read.rejected), request.datum);
  turn_those_fed_round(request.fed_round, all.readings);
  return all;
}

}  // namespace

Readings read_scans(const MeasureRequest& request, const Progress& progress) {
  std::vector<Unopened> unopened;
  const std::vector<ScanPage> pages = pages_of(request, unopened);
  return registered_scans(request, nullptr, pages, std::move(unopened), progress).readings;
}

Readings run_measure(const MeasureRequest& request, const Progress& progress) {
  if (request.scans.empty()) throw BadField("scans", findings::no_scans_named());
  check_output(request.out, request.replace);

  std::vector<Unopened> unopened;
  const std::vector<ScanPage> pages = pages_of(request, unopened);
  std::optional<ScanOverlays> overlays;
  if (request.overlay) overlays.emplace(*request.overlay, files_of(pages), request.replace);
  RegisteredSheets all = registered_scans(request, overlays ? &*overlays : nullptr, pages,
                                          std::move(unopened), progress);
  if (!all.readings.sheets.empty()) {
    write_file_atomically(request.out, to_text(json_of(all.readings)), request.replace);
  }
  if (overlays) {  // after the readings: a picture that cannot be written must not cost them
    overlays->write([&](const SideReading& side) { return all.verdict_of(side); });
  }
  return std::move(all.readings);
}

Fronts run_measure_fronts(const MeasureRequest& request, const Progress& progress) {
  if (request.scans.empty()) throw BadField("scans", findings::no_scans_named());
  check_output(request.out, request.replace);
  std::vector<Unopened> unopened;
  const std::vector<ScanPage> pages = pages_of(request, unopened);
  SidesRead read = read_sides(request, nullptr, pages, std::move(unopened), progress);
  Fronts fronts = front_lays(std::move(read.sides), std::move(read.rejected));
  if (!fronts.fronts.empty()) {
    write_file_atomically(request.out, to_text(json_of(fronts)), request.replace);
  }
  return fronts;
}

Refusal no_fronts(const Fronts& fronts) {
  return findings::no_front_read(words::findings_of(fronts.rejected));
}

Refusal no_sheets(const Readings& readings) {
  return findings::no_sheet_read(words::findings_of(readings.rejected));
}

}  // namespace versolay
