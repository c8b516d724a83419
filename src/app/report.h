// The command `report`: everything that is known of a printer, for one job, to read and to keep.
#pragma once

#include <filesystem>
#include <optional>

#include "app/advise.h"
#include "report/document.h"

namespace versolay {

struct ReportRequest {
  AdviseRequest job;
  std::filesystem::path html;  // empty: none
  std::filesystem::path pdf;   // empty: none
  bool replace = false;
};

struct ReportResult {
  PrinterProfile profile;
  std::optional<Advice> advice;    // nullopt: the profile does not allow one ...
  std::optional<Refusal> refusal;  // ... and why
  ReportDocument document;
  std::string next;  // the one command to run now
  Notices warnings;
};

/// Writes the report. A profile that allows no advice still gets one, which says what is known and
/// what to do; the reason is then among the warnings.
/// @return a refusal when the cards do not fit on the paper.
/// Throws Error when the profile is missing or malformed, an option is out of its range, or an
/// output cannot be written; nothing is written then.
Result<ReportResult> run_report(const ReportRequest& request);

}  // namespace versolay
