#include "app/report.h"
#include "cli/advice_json.h"
#include "cli/advise_options.h"
#include "cli/bad_option.h"
#include "cli/command.h"
#include "cli/option_values.h"
#include "cli/shared_options.h"
#include "core/finding_json.h"
#include "profile/profile_json.h"
#include "words/findings.h"
#include "words/translation.h"

namespace versolay::cli {
namespace {

struct ReportOptions {
  ReportRequest request;
  std::filesystem::path out;
};

ReportRequest report_request(const ReportOptions& options) {
  ReportRequest request = options.request;
  const bool is_pdf = options.out.string().ends_with(".pdf");
  if (is_pdf && !request.pdf.empty()) {
    throw BadOption("--pdf", request.pdf.string(), findings::second_pdf());
  }
  (is_pdf ? request.pdf : request.html) = options.out;
  return request;
}

Json figure_json(const Figure& f) {
  Json json = {{"id", f.id},           {"title", f.title},          {"alt", f.alt},
               {"caption", f.caption}, {"columns", f.numbers.head}, {"rows", f.numbers.rows}};
  return json;
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

Outcome outcome_of(const ReportRequest& request, const ReportResult& result) {
  Outcome outcome;
  std::string files;
  for (const auto& file : {request.html, request.pdf}) {
    if (file.empty()) continue;
    files = files.empty() ? file.string() : tr("{} and {}", files, file.string());
  }
  outcome.text = tr("Written to {}.", files);
  outcome.document = json_of(result, request);
  outcome.warnings = result.warnings;
  outcome.next = result.next;
  return outcome;
}

}  // namespace

Command add_report(CLI::App& root) {
  auto options = make_options<ReportOptions>();
  options->request.job.card = {63, 88};
  CLI::App* parser = root.add_subcommand(
      "report", tr("Everything known about a printer, with figures: a web page or a PDF to keep"));
  add_advise_options(*parser, options->request.job);
  add_out(*parser, options->out, tr("the report: .html, or .pdf"))->required();
  add_typed(*parser, "--pdf", options->request.pdf, output_file(), tr("also write it as a PDF"));
  parser->footer(
      tr("Example: versolay report inkjet.json --card 63x88 --grid 3x3 --cards 54 --border 3 --out "
         "inkjet.html --pdf inkjet.pdf"));
  return {parser, [options](const CommonOptions& common) -> Result<Outcome> {
            ReportRequest request = report_request(*options);
            request.replace = common.force;
            const auto result = run_report(request);
            if (!result) return result.refusal();
            return outcome_of(request, result.value());
          }};
}

}  // namespace versolay::cli
