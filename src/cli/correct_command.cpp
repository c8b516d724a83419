#include "app/back_layer.h"
#include "app/correct.h"
#include "cli/bad_option.h"
#include "cli/command.h"
#include "cli/option_values.h"
#include "cli/shared_options.h"
#include "core/numbers.h"
#include "core/registration_json.h"
#include "layout/card_format.h"
#include "profile/advice_tables.h"
#include "profile/profile_json.h"
#include "words/direction_words.h"
#include "words/findings.h"
#include "words/translation.h"

namespace versolay::cli {
namespace {

constexpr double kArtworkPpi = 300.0;  // for saying mm in px where no image sets the scale

struct CorrectOptions {
  CorrectRequest request;
  BackLayerRequest layer;  // of --guides
  std::string input;
  std::filesystem::path back;  // of a pair of images, when it is not named after a comma
  CardSize card;
  std::filesystem::path profile;
  std::filesystem::path guides;
};

/// "IN.pdf", or "FRONT,BACK" or "FRONT BACK" of images. A file whose own name holds the comma is
/// taken as it is.
void set_inputs(CorrectRequest& request, const std::string& text,
                const std::filesystem::path& back) {
  if (!back.empty()) {
    request.input = text;
    request.back = back;
    return;
  }
  const std::size_t comma = text.find(',');
  if (comma == std::string::npos || std::filesystem::exists(text)) {
    request.input = text;
    return;
  }
  if (text.find(',', comma + 1) != std::string::npos) {
    throw Error(text, findings::too_many_inputs());
  }
  request.input = text.substr(0, comma);
  request.back = text.substr(comma + 1);
}

BackLayerRequest layer_request_from(const CorrectOptions& options, const CommonOptions& common) {
  BackLayerRequest request = options.layer;
  request.card = options.card;
  if (request.card == CardSize{}) {
    throw BadOption("--guides", findings::guides_need_a_card());
  }
  request.profile = read_profile(options.profile);
  if (options.request.ppi) request.ppi = *options.request.ppi;
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
         "with its edges.\nLong dashes: where the cards are cut. Solid lines: where the artwork "
         "must be put. Dots: how far it must reach. The artwork as a whole is {}.",
         request.png.string(), report.width_px, report.height_px, format_number(request.ppi, 1),
         request.svg.string(), correction_in_words(request.profile.mean, request.ppi, common.unit));
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
  CorrectRequest request = options.request;
  if (options.input.empty() || request.out.empty()) {
    throw Error("correct", findings::nothing_to_correct());
  }
  set_inputs(request, options.input, options.back);
  if (options.card != CardSize{}) request.card = options.card;
  request.grid = options.layer.grid;
  request.gutter_mm = options.layer.gutter_mm;
  request.margins = options.layer.margins;
  if (!request.backs.empty() && request.back) {
    throw BadOption("--backs", findings::backs_of_pictures());
  }
  request.profile = read_profile(options.profile);
  request.replace = common.force;
  return request;
}

/// Beyond the cut, mm; null: the cards are not known, or the profile gives no oversize.
Json reach_json(const CorrectReport& report) {
  if (!report.reach) return Json();
  return {{"x_mm", rounded(report.reach->x_mm, 4)}, {"y_mm", rounded(report.reach->y_mm, 4)}};
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

/// How far the artwork has to reach, where it is known what the cards are.
std::string reach_words(const CorrectRequest& request, const CorrectReport& report,
                        const DisplayUnit& unit) {
  if (!request.card) {
    return tr("\nAdd --card and --grid to see how far the artwork must reach beyond the cuts.");
  }
  if (!report.reach) return "";
  const double ppi = report.ppi.value_or(request.ppi.value_or(kArtworkPpi));
  const Oversize up = oversize_of({report.reach->x_mm, report.reach->y_mm}, ppi);
  std::string text = tr("\nThe artwork of the backs must reach {} beyond the cut at every edge.",
                        oversize_length_words(up.x_mm, up.x_px, ppi, unit));
  if (report.shared_cuts) {
    const SharedCuts& cuts = *report.shared_cuts;
    text += " " + (cuts.reach_mm > 0
                       ? tr("Between the cards there is only room for {}.",
                            distance_words(cuts.reach_mm, unit))
                       : std::string(tr("Where the cards touch there is no room for that.")));
    text +=
        tr(" Unless neighbouring backs join there without a visible change, {} of {} cards of a "
           "sheet are clean on average; a gutter of {} keeps all edges clean.",
           format_fixed(cuts.good.cards_per_sheet, 1), cuts.good.cells,
           distance_words(cuts.gutter_needed_mm, unit));
  }
  return text;
}

std::string text_of(const CorrectRequest& request, const CorrectReport& report,
                    const DisplayUnit& unit) {
  const std::string moved =
      correction_in_words(request.profile.mean, report.ppi.value_or(kArtworkPpi), unit);
  const std::string out = request.out.string();
  const char* edge = request.profile.turn == Turn::long_edge ? tr("long") : tr("short");
  switch (report.kind) {
    case CorrectedKind::pdf_from_pdf:
    case CorrectedKind::pdf_from_images:
      return tr(
          "{}: {} pages, {} of them backs. The backs are {}; nothing was resampled, the other "
          "pages are unchanged.\n"
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
  add_typed(
      *parser, "input", options->input, words("FILE"),
      tr("IN.pdf (front, back, front, back, ...) or FRONT.png of a whole page (JPEG, TIFF too)"));
  add_typed(*parser, "back", options->back, file(),
            tr("BACK.png that belongs to FRONT.png (FRONT.png,BACK.png works too)"));
  add_typed(*parser, "--profile", options->profile, file(), tr("printer profile"))->required();
  add_out(*parser, options->request.out,
          tr("PDF to write, or for a pair of images the moved back as .png or .tif"));
  add_typed(*parser, "--backs", options->request.backs, page_numbers(),
            tr("pages that are backs, such as 2,4 (default: every second page)"));
  add_typed(*parser, "--ppi", options->request.ppi, optional(number("PPI")),
            tr("pixels per inch of the images (default: they cover the page); of --guides"));
  add_typed(*parser, "--guides", options->guides, file("NAME"),
            tr("instead of pages, write NAME.png (transparent) and NAME.svg: the places of the "
               "backs, to lay over your page in an image editor"));
  const auto with_guides = [](CLI::Option* option) {
    option->description(tr("with --guides: {}", option->get_description()));
  };
  add_card(*parser, options->card)
      ->description(tr("finished size of the cards on the pages: reports how far their artwork "
                       "must reach, and whether it does; {}",
                       card_format_list()));
  add_grid(*parser, options->layer.grid);
  add_gutter(*parser, options->layer.gutter_mm);
  add_margin(*parser, options->layer.margins);
  with_guides(add_oversize(*parser, options->layer.oversize));
  with_guides(add_back_edge(*parser, options->layer.back_edge));
  parser->footer(
      tr("Example: versolay correct cards.pdf --profile printer.json --out cards-corrected.pdf"));
  return {parser, [options](const CommonOptions& common) -> Result<Outcome> {
            if (!options->guides.empty()) return draw_layer(*options, common);
            const CorrectRequest request = correct_request(*options, common);
            const Result<CorrectReport> report = run_correct(request);
            if (!report) return report.refusal();
            Outcome outcome;
            outcome.text = text_of(request, report.value(), common.unit) +
                           reach_words(request, report.value(), common.unit);
            outcome.document = {{"out", request.out.string()},
                                {"kind", kind_name(report.value().kind)},
                                {"pages", report.value().pages},
                                {"backs", report.value().backs},
                                {"turn", to_string(request.profile.turn)},
                                {"back_moved", json_of(report.value().correction)},
                                {"reach_wanted", reach_json(report.value())}};
            outcome.warnings = report.value().warnings;
            return outcome;
          }};
}

}  // namespace versolay::cli
