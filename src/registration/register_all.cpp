#include "registration/register_all.h"

#include "core/files.h"
#include "registration/findings.h"
#include "registration/gathered_scans.h"
#include "registration/page_order.h"
#include "registration/stack_order.h"

namespace versolay {
namespace {

std::vector<std::string> scan_names(const SheetScans& scans) {
  std::vector<std::string> names;
  for (const auto* side : {&scans.recto, &scans.verso}) {
    for (const SideReading& scan : *side) names.push_back(scan.scan_name);
  }
  return names;
}

const SideReading& a_scan_of(const SheetScans& scans) {
  return (scans.recto.empty() ? scans.verso : scans.recto).front();
}

SheetKey key_of(const SideReading& side) {
  const PageIdentity& page = side.identity;
  return {page.paper.width_mm, page.paper.height_mm, page.turn, page.run, page.sheet};
}

/// A fault of ours in one sheet must not cost the others.
Result<SheetReading> registered(const SheetScans& scans, DatumChoice datum) {
  try {
    return register_sheet(scans, datum);
  } catch (const std::exception& e) {
    return findings::sheet_fault(e.what());
  }
}

/// The front of one sheet and the back of another were taken for one sheet.
void name_misplaced(const std::vector<MisplacedBack>& misplaced, SheetReading& sheet) {
  for (const MisplacedBack& m : misplaced) {
    if (m.run == sheet.run && m.sheet == sheet.sheet) {
      sheet.warnings.push_back(findings::back_of_other_sheet(m.back));
    }
  }
}

}  // namespace

const Result<SheetReading>* RegisteredSheets::verdict_of(const SideReading& side) const {
  const auto verdict = verdicts.find(key_of(side));
  return verdict == verdicts.end() ? nullptr : &verdict->second;
}

RegisteredSheets register_all(std::vector<SideReading> sides, std::vector<RejectedInput> rejected,
                              DatumChoice datum) {
  GatheredScans gathered = gathered_scans(std::move(sides), std::move(rejected));
  rejected = std::move(gathered.rejected);
  RegisteredSheets all;
  Readings& readings = all.readings;
  readings.created = utc_now();
  readings.paper = gathered.paper;
  readings.turn = gathered.turn;
  for (const SideReading& side : gathered.of_other_targets) {
    all.verdicts.insert_or_assign(key_of(side), of_other_target(side));
  }
  const std::vector<MisplacedBack> misplaced = misplaced_backs(gathered.sides);
  std::map<SheetKey, SheetScans> sheets;
  for (SideReading& side : gathered.sides) {
    SheetScans& scans = sheets[key_of(side)];
    (side.identity.side == Side::recto ? scans.recto : scans.verso).push_back(std::move(side));
  }
  std::vector<RefusedSheet> refused;
  for (auto& [key, scans] : sheets) {
    Result<SheetReading> sheet = registered(scans, datum);
    all.verdicts.insert_or_assign(key, sheet);
    if (sheet) {
      readings.sheets.push_back(std::move(sheet).value());
      name_misplaced(misplaced, readings.sheets.back());
    } else {
      refused.push_back({std::move(scans), sheet.refusal()});
    }
  }
  name_wrong_backs(refused);
  for (const RefusedSheet& sheet : refused) {
    const SideReading& any = a_scan_of(sheet.scans);
    all.verdicts.insert_or_assign(key_of(any), sheet.refusal);
    rejected.push_back({scan_names(sheet.scans), any.identity.sheet, sheet.refusal});
  }
  sort_rejected(rejected);
  readings.rejected = std::move(rejected);
  return all;
}

}  // namespace versolay
