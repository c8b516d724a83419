#include <fmt/format.h>

#include "app/correct.h"
#include "cli/command.h"
#include "core/direction_words.h"
#include "core/numbers.h"
#include "core/registration_json.h"
#include "profile/profile_json.h"

namespace versolay::cli {
namespace {

constexpr double kArtworkPpi = 300.0;  // for saying mm in px where no image sets the scale

struct Options {
  std::string input;
  std::string profile;
  std::string out;
};

/// "IN.pdf", or "FRONT,BACK" of images. A file whose own name holds the comma is taken as it is.
void set_inputs(CorrectRequest& request, const std::string& text) {
  const std::size_t comma = text.find(',');
  if (comma == std::string::npos || std::filesystem::exists(text)) {
    request.input = text;
    return;
  }
  if (text.find(',', comma + 1) != std::string::npos) {
    throw Error(text, "names more than two files. Give IN.pdf or FRONT.png,BACK.png");
  }
  request.input = text.substr(0, comma);
  request.back = text.substr(comma + 1);
}

CorrectRequest request_from(const Options& options, const CommonOptions& common) {
  CorrectRequest request;
  set_inputs(request, options.input);
  request.profile = read_profile(options.profile);
  request.out = options.out;
  request.replace = common.force;
  return request;
}

const char* kind_name(CorrectedKind kind) {
  switch (kind) {
    case CorrectedKind::pdf_from_pdf:
      return "pdf";
    case CorrectedKind::pdf_from_images:
      return "pdf-from-images";
    case CorrectedKind::image_from_image:
      return "image";
  }
  return "";
}

std::string text_of(const CorrectRequest& request, const CorrectReport& report) {
  const std::string moved =
      correction_in_words(request.profile.mean, report.ppi.value_or(kArtworkPpi));
  const std::string out = request.out.string();
  const char* edge = request.profile.turn == Turn::long_edge ? "long" : "short";
  switch (report.kind) {
    case CorrectedKind::pdf_from_pdf:
    case CorrectedKind::pdf_from_images:
      return fmt::format(
          "{}: {} pages. The back pages are {}; nothing was resampled, the fronts are as they "
          "were.\n"
          "Print at actual size (100 %), borderless and driver duplex off; turn the sheets on the "
          "{} edge.",
          out, report.pages, moved, edge);
    case CorrectedKind::image_from_image:
      return fmt::format(
          "{}: the back image, {}, resampled once. The front needs no change: print {} as it is.\n"
          "Print both at actual size on {} x {} mm; turn the sheets on the {} edge.",
          out, moved, request.input.string(), format_number(request.profile.paper.width_mm, 1),
          format_number(request.profile.paper.height_mm, 1), edge);
  }
  return {};
}

}  // namespace

Command add_correct(CLI::App& root) {
  auto options = make_options<Options>();
  CLI::App* parser = root.add_subcommand(
      "correct", "Move the backs of a finished two-sided PDF or image pair to where they belong");
  parser
      ->add_option("input", options->input,
                   "IN.pdf (front, back, front, back, ...) or FRONT.png,BACK.png of whole pages "
                   "(JPEG too)")
      ->required();
  parser->add_option("--profile", options->profile, "printer profile")->required();
  parser
      ->add_option("--out", options->out,
                   "PDF to write, or for a pair of images the moved back as .png")
      ->required();
  parser->footer(
      "Example: versolay correct cards.pdf --profile printer.json --out cards-corrected.pdf");
  return {parser, [options](const CommonOptions& common) -> Result<Outcome> {
            const CorrectRequest request = request_from(*options, common);
            const Result<CorrectReport> report = correct(request);
            if (!report) return report.refusal();
            Outcome outcome;
            outcome.text = text_of(request, report.value());
            outcome.document = {{"out", request.out.string()},
                                {"kind", kind_name(report.value().kind)},
                                {"pages", report.value().pages},
                                {"turn", to_string(request.profile.turn)},
                                {"back_moved", json_of(report.value().correction)}};
            outcome.warnings = report.value().warnings;
            return outcome;
          }};
}

}  // namespace versolay::cli
