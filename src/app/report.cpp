#include "app/report.h"

#include <fmt/format.h>

#include <cctype>

#include "app/advice_json.h"
#include "app/next_step.h"
#include "app/report_sections.h"
#include "core/files.h"
#include "core/finding_json.h"
#include "core/numbers.h"
#include "core/registration_json.h"
#include "core/software.h"
#include "core/translation.h"
#include "core/utf8.h"
#include "profile/profile_json.h"
#include "report/html.h"
#include "report/pdf_pages.h"
#include "report/what_if.h"

namespace versolay {
namespace {

/// A word as a shell takes it.
std::string shell_word(const std::string& text) {
  constexpr std::string_view kPlain =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789._/-+";
  if (!text.empty() && text.find_first_not_of(kPlain) == std::string::npos) return text;
  std::string quoted = "'";
  for (char c : text) quoted += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return quoted + "'";
}

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

Json figure_json(const Figure& f) {
  Json json = {{"id", f.id},           {"title", f.title},          {"alt", f.alt},
               {"caption", f.caption}, {"columns", f.numbers.head}, {"rows", f.numbers.rows}};
  return json;
}

}  // namespace

Result<ReportResult> make_report(const ReportRequest& request) {
  check_outputs({request.html, request.pdf}, request.replace);
  ReportResult result;
  result.profile = read_profile(request.job.profile);
  Result<AdviseReport> advised = advise_from_file(request.job);
  if (advised) {
    AdviseReport& report = advised.value();
    result.advice = report.advice;
    result.next = print_command(request, report.advice.request.grid);
    result.warnings = report.advice.warnings;
    WhatIfTable wishes =
        what_if(report.profile, report.advice.request,
                {.populations = request.job.populations, .threads = request.job.threads});
    result.document.sections = report_sections(report, std::move(wishes), result.next);
  } else {
    result.refusal = advised.refusal();
    if (result.refusal->code != "too_few_sheets" && result.refusal->code != "no_spread") {
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

Json json_of(const ReportResult& result, const ReportRequest& request) {
  Json document = {{"schema", "versolay.report/1"},
                   {"title", result.document.title},
                   {"set_up", result.document.subtitle}};
  if (!request.html.empty()) document["html"] = request.html.string();
  if (!request.pdf.empty()) document["pdf"] = request.pdf.string();
  Json verdict = Json::array();
  Json figures = Json::array();
  for (const Section& section : result.document.sections) {
    for (const Block& block : section.blocks) {
      if (const auto* p = std::get_if<Paragraph>(&block);
          p && (p->tone == Tone::lead || p->tone == Tone::promise)) {
        verdict.push_back(p->text);
      } else if (const auto* f = std::get_if<Figures>(&block)) {
        for (const Figure& figure : f->list) figures.push_back(figure_json(figure));
      } else if (const auto* w = std::get_if<WhatIfTable>(&block)) {
        document["what_if"] = w->data;
      }
    }
  }
  document["verdict"] = std::move(verdict);
  if (result.advice) {
    document["advice"] =
        json_of(AdviseReport{result.profile, *result.advice}, request.job.profile.string());
    document["advice"]["warnings"] = json_of(result.advice->warnings);
  }
  if (result.refusal) {
    document["no_advice"] = json_of(*result.refusal);
  }
  document["profile"] = json_of(result.profile);
  document["figures"] = std::move(figures);
  document["next"] = result.next;
  return document;
}

}  // namespace versolay
