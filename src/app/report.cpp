#include "app/report.h"

#include "core/files.h"
#include "profile/findings.h"
#include "profile/profile_json.h"
#include "report/html.h"
#include "report/report_head.h"
#include "report/report_pdf.h"
#include "report/report_sections.h"
#include "report/what_if.h"
#include "words/commands.h"

namespace versolay {
namespace {

/// Reports are read on the paper of the continent.
Paper reading_paper(const Paper& printed) {
  return parse_paper(printed.name == "letter" || printed.name == "tabloid" ? "letter" : "a4");
}

void write_outputs(const ReportRequest& request, const ReportResult& result) {
  const std::string html = request.html.empty() ? "" : html_of(result.document);
  const std::string pdf =
      request.pdf.empty()
          ? ""
          : render_pdf(pdf_of(result.document, reading_paper(result.profile.paper)));
  if (!request.html.empty()) write_file_atomically(request.html, html, request.replace);
  if (!request.pdf.empty()) write_file_atomically(request.pdf, pdf, request.replace);
}

}  // namespace

Result<ReportResult> run_report(const ReportRequest& request) {
  check_outputs({request.html, request.pdf}, request.replace);
  ReportResult result;
  result.profile = read_profile(request.job.profile);
  Result<AdviseReport> advised = run_advise(request.job);
  if (advised) {
    AdviseReport& report = advised.value();
    result.advice = report.advice;
    result.next = impose_command(request.job.profile, request.job.card, report.advice.request.grid);
    result.warnings = report.advice.warnings;
    WhatIfTable wishes =
        what_if(report.profile, report.advice.request,
                {.populations = request.job.populations, .threads = request.job.threads});
    result.document.sections =
        report_sections(report.profile, report.advice, std::move(wishes), result.next);
  } else {
    result.refusal = advised.refusal();
    const bool more_sheets_help = *result.refusal == findings::too_few_sheets ||
                                  *result.refusal == findings::no_spread ||
                                  *result.refusal == findings::advice_needs_recentring;
    if (!more_sheets_help) return *result.refusal;
    result.next = more_sheets_command(result.profile);
    result.warnings.push_back(*result.refusal);
    result.document.sections = report_sections(result.profile, *result.refusal, result.next);
  }
  add_head(result.profile, request.job.profile.filename().string(), result.document);
  write_outputs(request, result);
  return result;
}

}  // namespace versolay
