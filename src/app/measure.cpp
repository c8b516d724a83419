#include "app/measure.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <mutex>
#include <variant>

#include "core/files.h"
#include "core/parallel.h"
#include "measure/overlay.h"
#include "registration/fed_round.h"
#include "registration/page_order.h"
#include "registration/readings_json.h"
#include "registration/sheet_registration.h"

namespace versolay {
namespace {

/// One page of one scan file: the unit of parallel work.
struct Job {
  std::filesystem::path file;
  int page = 1;
  int pages = 1;
};

struct Unreadable {
  std::string file;
  std::string code;
  std::string message;
};
using JobResult = std::variant<std::monostate, SideReading, Unreadable>;

std::vector<Job> jobs_of(const MeasureRequest& request, std::vector<Unreadable>& unreadable) {
  std::vector<Job> jobs;
  for (const auto& file : request.scans) {
    if (!std::filesystem::exists(file)) throw Error(file.string(), "does not exist");
    try {
      const int pages = count_pages(file);
      for (int page = 1; page <= pages; ++page) jobs.push_back({file, page, pages});
    } catch (const Error& e) {
      unreadable.push_back({file.string(), "unreadable_file", e.what()});
    }
  }
  return jobs;
}

/// "scan3.overlay.png", "pages.p2.overlay.png"; a number keeps scans of one name apart.
std::filesystem::path overlay_path(const MeasureRequest& request, const Job& job) {
  std::string name = job.file.stem().string();
  int same_name_before = 0;
  for (const auto& other : request.scans) {
    if (other == job.file) break;
    same_name_before += other.stem() == job.file.stem() ? 1 : 0;
  }
  if (same_name_before > 0) name += "-" + std::to_string(same_name_before + 1);
  if (job.pages > 1) name += ".p" + std::to_string(job.page);
  return *request.overlay / (name + ".overlay.png");
}

JobResult run(const Job& job, const MeasureRequest& request) {
  const auto read = [&]() -> std::variant<std::pair<Scan, Result<SideReading>>, Unreadable> {
    try {
      Scan scan = load_page(job.file, job.page);
      Result<SideReading> side = read_side(scan);
      return std::pair{std::move(scan), std::move(side)};
    } catch (const Error& e) {
      return Unreadable{job.file.string(), "unreadable_file", e.what()};
    }
  }();
  if (const auto* unreadable = std::get_if<Unreadable>(&read)) return *unreadable;
  const auto& [scan, side] = std::get<0>(read);
  if (request.overlay) {  // a failed write is not the scan's fault
    write_file_atomically(overlay_path(request, job), overlay_png(scan, side), request.replace);
  }
  if (side) return side.value();
  return Unreadable{scan.name(), side.refusal().code, side.refusal().message};
}

std::vector<JobResult> run_all(const std::vector<Job>& jobs, const MeasureRequest& request,
                               const Progress& progress) {
  std::vector<JobResult> results(jobs.size());
  std::mutex mutex;
  int done = 0;
  for_each_item(static_cast<int>(jobs.size()), 1, request.threads, [&] {
    return [&](int item) {
      const auto i = static_cast<std::size_t>(item);
      results[i] = run(jobs[i], request);
      const std::scoped_lock lock(mutex);
      tell(progress, ++done, static_cast<int>(jobs.size()), "Reading scans");
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

std::string scan_names(const SheetScans& scans) {
  std::string joined;
  for (const auto* side : {&scans.recto, &scans.verso}) {
    for (const SideReading& scan : *side) joined += (joined.empty() ? "" : ", ") + scan.scan_name;
  }
  return joined;
}

int sheet_number(const SheetScans& scans) {
  return (scans.recto.empty() ? scans.verso : scans.recto).front().identity.sheet;
}

/// By name, so that the order on the command line does not matter.
void sort_scans(std::vector<SideReading>& scans) {
  std::sort(scans.begin(), scans.end(),
            [](const SideReading& a, const SideReading& b) { return a.scan_name < b.scan_name; });
}

bool same_picture(const SideReading& a, const SideReading& b) {
  return a.rings.size() == b.rings.size() &&
         std::equal(a.rings.begin(), a.rings.end(), b.rings.begin(),
                    [](const RingUse& x, const RingUse& y) { return x.seen == y.seen; });
}

/// One picture in two files is one measurement. Precondition: sorted by name.
void leave_out_copies(std::vector<SideReading>& sides, std::vector<Unreadable>& unreadable) {
  std::vector<SideReading> originals;
  for (SideReading& side : sides) {
    const auto original =
        std::find_if(originals.begin(), originals.end(),
                     [&](const SideReading& other) { return same_picture(side, other); });
    if (original == originals.end()) {
      originals.push_back(std::move(side));
    } else {
      unreadable.push_back(
          {side.scan_name, "copy",
           fmt::format("This is the same picture as {}. It counts once.", original->scan_name)});
    }
  }
  sides = std::move(originals);
}

Readings register_all(std::vector<SideReading> sides, std::vector<Unreadable> unreadable,
                      DatumChoice datum) {
  sort_scans(sides);
  leave_out_copies(sides, unreadable);
  std::map<TargetKey, int> votes;
  for (const SideReading& side : sides) ++votes[key_of(side.identity)];
  const auto most = std::max_element(
      votes.begin(), votes.end(), [](const auto& a, const auto& b) { return a.second < b.second; });
  Readings readings;
  readings.created = utc_now();
  readings.paper = paper_of_size(most->first.width_mm, most->first.height_mm);
  readings.turn = most->first.turn;

  std::map<std::pair<std::string, int>, SheetScans> sheets;
  for (SideReading& side : sides) {
    if (key_of(side.identity) != most->first) {
      unreadable.push_back(
          {side.scan_name, "other_target",
           fmt::format("This page is of another target ({} paper, {} turn) than most of the scans. "
                       "Measure each target by itself.",
                       side.identity.paper.name, to_string(side.identity.turn))});
      continue;
    }
    SheetScans& scans = sheets[{side.identity.run, side.identity.sheet}];
    (side.identity.side == Side::recto ? scans.recto : scans.verso).push_back(std::move(side));
  }
  std::vector<RefusedSheet> refused;
  for (auto& [key, scans] : sheets) {
    Result<SheetReading> sheet = register_sheet(scans, datum);
    if (sheet) {
      readings.sheets.push_back(std::move(sheet).value());
    } else {
      refused.push_back({std::move(scans), sheet.refusal()});
    }
  }
  name_wrong_backs(refused);
  for (const RefusedSheet& sheet : refused) {
    unreadable.push_back(
        {scan_names(sheet.scans), sheet.refusal.code,
         fmt::format("Sheet {}: {}", sheet_number(sheet.scans), sheet.refusal.message)});
  }
  std::sort(unreadable.begin(), unreadable.end(),
            [](const Unreadable& a, const Unreadable& b) { return a.file < b.file; });
  for (Unreadable& u : unreadable) readings.rejected.push_back({u.file, u.code, u.message});
  return readings;
}

Refusal nothing_read(const std::vector<RejectedInput>& rejected) {
  std::string message = "No sheet could be read.";
  for (const RejectedInput& r : rejected) message += "\n  " + r.file + ": " + r.message;
  return {"no_sheets", message};
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
    readings.rejected.push_back(
        {fmt::format("--fed-round {}", sheet), "fed_round_not_read",
         fmt::format("Sheet {} is named as fed round, but was not read.", sheet)});
  }
}

/// Before the work: the folder is made, and nothing in it would be replaced unasked.
void prepare_overlays(const MeasureRequest& request, const std::vector<Job>& jobs) {
  std::error_code failed;
  std::filesystem::create_directories(*request.overlay, failed);
  if (failed) throw Error(request.overlay->string(), "cannot be made: " + failed.message());
  for (const Job& job : jobs) check_output(overlay_path(request, job), request.replace);
}

}  // namespace

Result<Readings> measure(const MeasureRequest& request, const Progress& progress) {
  if (request.scans.empty()) throw Error("measure", "name the scans to read");
  check_output(request.out, request.replace);

  std::vector<Unreadable> unreadable;
  const std::vector<Job> jobs = jobs_of(request, unreadable);
  if (request.overlay) prepare_overlays(request, jobs);
  std::vector<SideReading> sides;
  for (JobResult& result : run_all(jobs, request, progress)) {
    if (auto* side = std::get_if<SideReading>(&result)) {
      sides.push_back(std::move(*side));
    } else if (auto* failed = std::get_if<Unreadable>(&result)) {
      unreadable.push_back(std::move(*failed));
    }
  }
  if (sides.empty()) {
    std::vector<RejectedInput> rejected;
    bool all_files = true;
    for (const Unreadable& u : unreadable) {
      rejected.push_back({u.file, u.code, u.message});
      all_files = all_files && u.code == "unreadable_file";
    }
    if (all_files) throw Error("", unreadable.front().message);
    return nothing_read(rejected);
  }
  Readings readings = register_all(std::move(sides), std::move(unreadable), request.datum);
  if (readings.sheets.empty()) return nothing_read(readings.rejected);
  turn_those_fed_round(request.fed_round, readings);
  write_file_atomically(request.out, to_text(json_of(readings)), request.replace);
  return readings;
}

}  // namespace versolay
