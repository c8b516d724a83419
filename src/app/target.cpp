#include "app/target.h"

#include <random>

#include "core/field_range.h"
#include "core/files.h"
#include "pdf/fonts.h"
#include "pdf/pdf_document.h"
#include "report/print_card.h"
#include "target/geometry.h"
#include "target/identity.h"
#include "target/page_drawing.h"
#include "target/pass_marks.h"
#include "words/findings.h"
#include "words/target_page_words.h"

namespace versolay {
namespace {

constexpr int kMostSheets = 200;

std::optional<std::filesystem::path> print_card_of(const TargetRequest& request) {
  if (request.print_card || request.passes == 1) return request.print_card;
  std::filesystem::path card = request.pdf;
  return card.replace_filename(card.stem().string() + "-printcard.pdf");
}

void check(const TargetRequest& request) {
  require_in("sheets", request.sheets, 1, kMostSheets);
  if (request.run) {
    const PageIdentity probe{request.paper, request.turn, *request.run, 1, Side::recto};
    if (!identity_from_code_text(code_text(probe))) {
      throw BadField("run", findings::not_a_run_code());
    }
  }
  require_in("passes", request.passes, 1, kMostPasses);
  if (request.passes > 1 && !request.fed_round.empty()) {
    throw BadField("fed_round", findings::pages_of_a_pass_are_the_same());
  }
  if (request.passes > 1 && request.corrected_by) {
    throw BadField("corrected_by", findings::proof_is_fed_once());
  }
  constexpr double kRoomMm = 108.0;
  constexpr std::size_t kMostBytes =
      1000;  // what can be measured, and far more than there is room for
  if (request.label.size() > kMostBytes || text_width_mm(request.label, 3.0) > kRoomMm) {
    throw BadField("label", findings::label_too_long());
  }
  for (const int sheet : request.fed_round) {
    if (sheet < 1 || sheet > request.sheets) {
      throw BadField("fed_round", findings::not_one_of_the_sheets(sheet, request.sheets));
    }
  }
  check_outputs({request.pdf, request.geometry.value_or(""), print_card_of(request).value_or("")},
                request.replace);
}

/// Front, back, front, back ...
void add_sheets(const TargetRequest& request, const TargetReport& report, PdfDocument& document) {
  for (int sheet = 1; sheet <= request.sheets; ++sheet) {
    for (const Side side : {Side::recto, Side::verso}) {
      const PageIdentity identity{request.paper, request.turn, report.run, sheet, side};
      document.pages.push_back(
          {request.paper, target_page(report.geometry, identity,
                                      words::target_page_words(identity, request.label))});
      Affine<PageMm, PageMm>& page_from_content = document.pages.back().page_from_content;
      if (side == Side::verso && request.corrected_by) {
        page_from_content =
            relabel_affine<PageMm, PageMm>(request.corrected_by->page_from_wanted());
      }
      if (request.fed_round.contains(sheet)) {
        const Affine<PageMm, PageMm> half_turn(-Eigen::Matrix2d::Identity(),
                                               Eigen::Vector2d::Zero());
        page_from_content = half_turn * page_from_content;
      }
    }
  }
}

/// As they are printed: the fronts of all sheets in their first pass, in their second, ..., then
/// the backs.
void add_passes(const TargetRequest& request, const TargetReport& report, PdfDocument& document) {
  for (const Side side : {Side::recto, Side::verso}) {
    for (int sheet = 1; sheet <= request.sheets; ++sheet) {
      const PageIdentity identity{request.paper, request.turn, report.run,
                                  sheet,         side,         request.passes};
      document.pages.push_back(
          {request.paper, target_page(report.geometry, identity,
                                      words::target_page_words(identity, request.label))});
    }
    for (int pass = 2; pass <= request.passes; ++pass) {
      const Drawing page =
          pass_page(report.geometry, pass, side, words::pass_page_words(pass, side));
      document.pages.insert(document.pages.end(), static_cast<std::size_t>(request.sheets),
                            {request.paper, page});
    }
  }
}

}  // namespace

TargetReport run_target(const TargetRequest& request) {
  check(request);
  TargetReport report;
  report.geometry = target_geometry(request.paper, request.turn, request.passes);
  report.print_card = print_card_of(request);
  report.run = request.run ? *request.run : run_code(std::random_device{}());
  PdfDocument document{words::target_title(request.paper.name, report.run), request.turn, {}};
  if (request.corrected_by) {
    document.backs_moved = registration_from(request.corrected_by->page_from_wanted());
  }
  if (request.passes == 1) {
    add_sheets(request, report, document);
  } else {
    add_passes(request, report, document);
  }
  report.pages = static_cast<int>(document.pages.size());
  const std::string pdf = render_pdf(document);
  const std::string geometry = to_text(geometry_json(report.geometry));
  const std::string card = report.print_card
                               ? print_card_pdf({request.paper, request.turn, request.sheets,
                                                 report.run, request.passes})
                               : "";
  write_file_atomically(request.pdf, pdf, request.replace);
  if (request.geometry) write_file_atomically(*request.geometry, geometry, request.replace);
  if (report.print_card) write_file_atomically(*report.print_card, card, request.replace);
  return report;
}

}  // namespace versolay
