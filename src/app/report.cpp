#include "app/report.h"

#include <fmt/format.h>

#include <cctype>

#include "core/files.h"
#include "core/numbers.h"
#include "core/software.h"
#include "core/utf8.h"
#include "profile/profile_json.h"
#include "report/html.h"
#include "report/pdf_pages.h"
#include "report/report_sections.h"
#include "report/what_if.h"
#include "words/commands.h"
#include "words/translation.h"

namespace versolay {
namespace {

std::string print_command(const ReportRequest& request, const CardGrid& grid) {
  return fmt::format(
      "versolay impose --fronts FOLDER --back BACK.png --card {}x{} --grid {}x{}{} --profile {} "
      "--out "
      "deck.pdf",
      format_number(request.job.card.width_mm, 3), format_number(request.job.card.height_mm, 3),
      grid.columns, grid.rows,
      grid.gutter_mm > 0 ? " --gutter " + format_number(grid.gutter_mm, 3) : "",
      shell_word(valid_utf8(request.job.profile.string())));
}

std::string paper_words(const Paper& paper) {
  std::string name = paper.name;
  if (!name.empty()) name[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(name[0])));
  return tr("{} paper", name);
}

std::string subtitle_of(const PrinterProfile& p) {
  std::string text;
  for (const std::string& part :
       {p.feed, p.stock, p.quality, paper_words(p.paper),
        tr("turned on the {}", p.turn == Turn::long_edge ? tr("long edge") : tr("short edge"))}) {
    if (!part.empty()) text += (text.empty() ? "" : ", ") + part;
  }
  return text;
}

std::string colophon_of(const ReportRequest& request, const PrinterProfile& p) {
  return tr("Made by {} on {} from {} (profile of {}).", kSoftware, utc_now().substr(0, 10),
            valid_utf8(request.job.profile.filename().string()), p.created.substr(0, 10));
}

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
    result.next = print_command(request, report.advice.request.grid);
    result.warnings = report.advice.warnings;
    WhatIfTable wishes =
        what_if(report.profile, report.advice.request,
                {.populations = request.job.populations, .threads = request.job.threads});
    result.document.sections =
        report_sections(report.profile, report.advice, std::move(wishes), result.next);
  } else {
    result.refusal = advised.refusal();
    if (result.refusal->code != "too_few_sheets" && result.refusal->code != "no_spread" &&
        result.refusal->code != "recentre_first") {
      return *result.refusal;
    }
    result.next = more_sheets_command(result.profile);
    result.warnings.push_back(*result.refusal);
    result.document.sections = report_sections(result.profile, *result.refusal, result.next);
  }
  result.document.title = tr("Front and back: {}", result.profile.printer);
  result.document.subtitle = subtitle_of(result.profile);
  result.document.colophon = colophon_of(request, result.profile);
  write_outputs(request, result);
  return result;
}

}  // namespace versolay
