#include "app/back_layer.h"
#include "app/correct.h"
#include "cli/command.h"
#include "core/direction_words.h"
#include "core/numbers.h"
#include "core/registration_json.h"
#include "core/translation.h"
#include "profile/profile_json.h"

namespace versolay::cli {
namespace {

constexpr double kArtworkPpi = 300.0;  // for saying mm in px where no image sets the scale

struct CorrectOptions {
  std::string input;
  std::string profile;
  std::string backs;
  std::string ppi;
  std::string out;
  std::string guides;
  std::string card;
  std::string grid = "auto";
  std::string gutter = "0";
  std::string margin = "5";
  std::string oversize;
};

/// "IN.pdf", or "FRONT,BACK" of images. A file whose own name holds the comma is taken as it is.
void set_inputs(CorrectRequest& request, const std::string& text) {
  const std::size_t comma = text.find(',');
  if (comma == std::string::npos || std::filesystem::exists(text)) {
    request.input = text;
    return;
  }
  if (text.find(',', comma + 1) != std::string::npos) {
    throw Error(text, tr("names more than two files. Give IN.pdf or FRONT.png,BACK.png"));
  }
  request.input = text.substr(0, comma);
  request.back = text.substr(comma + 1);
}

/// "2,4,6".
std::vector<int> option_pages(const std::string& text) {
  std::vector<int> pages;
  if (text.empty()) return pages;
  for (const std::string& part : comma_list(text)) {
    const auto page = parse_integer(part);
    if (!page || *page < 1)
      throw Error("--backs " + text, tr("must be page numbers, such as 2,4,6"));
    pages.push_back(*page);
  }
  return pages;
}

BackLayerRequest layer_request_from(const CorrectOptions& options, const CommonOptions& common) {
  if (options.card.empty()) {
    throw Error("--guides", tr("draws the places of cards: say their size with --card 63x88"));
  }
  BackLayerRequest request;
  request.profile = read_profile(options.profile);
  request.card = option_card(options.card);
  request.grid = option_grid(options.grid);
  request.gutter_mm = option_number("--gutter", options.gutter);
  request.margins = option_margins(options.margin);
  if (!options.oversize.empty()) request.oversize = option_oversize(options.oversize);
  if (!options.ppi.empty()) request.ppi = option_number("--ppi", options.ppi);
  std::filesystem::path stem(options.guides);
  stem.replace_extension();
  request.png = stem.string() + ".png";
  request.svg = stem.string() + ".svg";
  request.replace = common.force;
  return request;
}

Result<Outcome> draw_layer(const CorrectOptions& options, const CommonOptions& common) {
  const BackLayerRequest request = layer_request_from(options, common);
  const Result<BackLayerReport> drawn = draw_back_layer(request);
  if (!drawn) return drawn.refusal();
  const BackLayerReport& report = drawn.value();
  Outcome outcome;
  outcome.text =
      tr("{} ({} x {} px at {} ppi) and {}: lay one of them over your page of backs, in register "
         "with its edges.\nDark dashes: where the cards are cut. Solid lines: where the artwork "
         "must be put. Light dashes: how far it must reach. All artwork together is {}.",
         request.png.string(), report.width_px, report.height_px, format_number(request.ppi, 1),
         request.svg.string(), correction_in_words(request.profile.mean, request.ppi));
  outcome.document = {
      {"png", request.png.string()},
      {"svg", request.svg.string()},
      {"width_px", report.width_px},
      {"height_px", report.height_px},
      {"ppi", request.ppi},
      {"turn", to_string(request.profile.turn)},
      {"grid", {report.grid.columns, report.grid.rows}},
      {"oversize",
       {{"x_mm", rounded(report.oversize.x_mm, 4)}, {"y_mm", rounded(report.oversize.y_mm, 4)}}},
      {"back_moved", json_of(report.shift)}};
  outcome.warnings = report.warnings;
  return outcome;
}

CorrectRequest correct_request(const CorrectOptions& options, const CommonOptions& common) {
  CorrectRequest request;
  if (options.input.empty() || options.out.empty()) {
    throw Error("correct", tr("needs the pages to correct (IN.pdf or FRONT.png,BACK.png) and "
                              "--out; or --guides for a layer to draw on"));
  }
  set_inputs(request, options.input);
  request.backs = option_pages(options.backs);
  if (!request.backs.empty() && request.back) {
    throw Error("--backs", tr("is for the pages of a PDF; of two pictures the second is the back"));
  }
  if (!options.ppi.empty()) request.ppi = option_number("--ppi", options.ppi);
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
  const char* edge = request.profile.turn == Turn::long_edge ? tr("long") : tr("short");
  switch (report.kind) {
    case CorrectedKind::pdf_from_pdf:
    case CorrectedKind::pdf_from_images:
      return tr(
          "{}: {} pages, {} of them backs. The backs are {}; nothing was resampled, the other "
          "pages are as they were.\n"
          "Print at actual size (100 %), borderless and driver duplex off; turn the sheets on the "
          "{} edge.",
          out, report.pages, report.backs, moved, edge);
    case CorrectedKind::image_from_image:
      return tr(
          "{}: the back image, {}, resampled once. The front needs no change: print {} as it is.\n"
          "Print both at actual size on {} x {} mm; turn the sheets on the {} edge.",
          out, moved, request.input.string(), format_number(request.profile.paper.width_mm, 1),
          format_number(request.profile.paper.height_mm, 1), edge);
  }
  return {};
}

}  // namespace

Command add_correct(CLI::App& root) {
  auto options = make_options<CorrectOptions>();
  CLI::App* parser = root.add_subcommand(
      "correct",
      tr("Move the backs of a finished two-sided PDF or image pair to where they belong"));
  parser->add_option("input", options->input,
                     tr("IN.pdf (front, back, front, back, ...) or FRONT.png,BACK.png of whole "
                        "pages (JPEG, TIFF too)"));
  parser->add_option("--profile", options->profile, tr("printer profile"))->required();
  parser->add_option("--out", options->out,
                     tr("PDF to write, or for a pair of images the moved back as .png or .tif"));
  parser->add_option("--backs", options->backs,
                     tr("pages that are backs, such as 2,4 (default: every second)"));
  parser->add_option(
      "--ppi", options->ppi,
      tr("pixels per inch of the images (default: they cover the page); of --guides"));
  parser->add_option("--guides", options->guides,
                     tr("instead of pages, write NAME.png (transparent) and NAME.svg: the places "
                        "of the backs, to lie over your page in an image editor"));
  parser->add_option("--card", options->card, tr("with --guides: size of a card, 63x88 or a name"));
  parser->add_option("--grid", options->grid, tr("with --guides: columns x rows, or auto"))
      ->capture_default_str();
  parser->add_option("--gutter", options->gutter, tr("with --guides: mm between cards"))
      ->capture_default_str();
  parser
      ->add_option("--margin", options->margin,
                   tr("with --guides: mm that the printer leaves white"))
      ->capture_default_str();
  parser->add_option("--oversize", options->oversize,
                     tr("with --guides: mm per side (default: from the profile)"));
  parser->footer(
      tr("Example: versolay correct cards.pdf --profile printer.json --out cards-corrected.pdf"));
  return {parser, [options](const CommonOptions& common) -> Result<Outcome> {
            if (!options->guides.empty()) return draw_layer(*options, common);
            const CorrectRequest request = correct_request(*options, common);
            const Result<CorrectReport> report = correct(request);
            if (!report) return report.refusal();
            Outcome outcome;
            outcome.text = text_of(request, report.value());
            outcome.document = {{"out", request.out.string()},
                                {"kind", kind_name(report.value().kind)},
                                {"pages", report.value().pages},
                                {"backs", report.value().backs},
                                {"turn", to_string(request.profile.turn)},
                                {"back_moved", json_of(report.value().correction)}};
            outcome.warnings = report.value().warnings;
            return outcome;
          }};
}

}  // namespace versolay::cli
