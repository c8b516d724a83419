#include "app/report.h"
#include "cli/command.h"
#include "cli/job_options.h"
#include "core/translation.h"

namespace versolay::cli {
namespace {

struct ReportOptions {
  JobOptions job;
  std::string out;
  std::string pdf;
};

ReportRequest report_request(const ReportOptions& options) {
  ReportRequest request;
  request.job = request_from(options.job);
  request.pdf = options.pdf;
  (options.out.ends_with(".pdf") ? request.pdf : request.html) = options.out;
  if (options.out.ends_with(".pdf") && !options.pdf.empty()) {
    throw Error("--pdf " + options.pdf,
                tr("is a second PDF: give --out the name of a web page (.html)"));
  }
  return request;
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
  options->job.card = "63x88";
  CLI::App* parser = root.add_subcommand(
      "report", tr("All that is known, with pictures: a web page or a PDF to read and to keep"));
  add_job_options(*parser, options->job);
  parser->get_option("--card")->capture_default_str();
  parser->add_option("--out", options->out, tr("the report: .html, or .pdf"))->required();
  parser->add_option("--pdf", options->pdf, tr("the same as a PDF, besides"));
  parser->footer(
      tr("Example: versolay report inkjet.json --card 63x88 --grid 3x3 --cards 54 --border 3 --out "
         "inkjet.html --pdf inkjet.pdf"));
  return {parser, [options](const CommonOptions& common) -> Result<Outcome> {
            ReportRequest request = report_request(*options);
            request.replace = common.force;
            const auto result = make_report(request);
            if (!result) return result.refusal();
            return outcome_of(request, result.value());
          }};
}

}  // namespace versolay::cli
