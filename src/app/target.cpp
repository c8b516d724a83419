#include "app/target.h"

#include <fmt/format.h>

#include <random>

#include "core/files.h"
#include "pdf/fonts.h"
#include "pdf/pdf_document.h"
#include "report/print_card.h"
#include "target/geometry.h"
#include "target/identity.h"
#include "target/page_drawing.h"
#include "words/target_page_words.h"
#include "words/translation.h"

namespace versolay {
namespace {

constexpr int kMostSheets = 200;

void check(const TargetRequest& request) {
  if (request.sheets < 1 || request.sheets > kMostSheets) {
    throw Error(fmt::format("--sheets {}", request.sheets),
                tr("must be from 1 to {}. 10 sheets are a good start", kMostSheets));
  }
  if (request.run) {
    const PageIdentity probe{request.paper, request.turn, *request.run, 1, Side::recto};
    if (!identity_from_code_text(code_text(probe))) {
      throw Error("--run " + *request.run,
                  tr("must be 4 capital letters or digits, without 0, 1, I and O"));
    }
  }
  constexpr double kRoomMm = 108.0;
  if (text_width_mm(request.label, 3.0) > kRoomMm) {
    throw Error("--label", tr("is too long for its line. Shorten it to about 50 characters"));
  }
  for (const int sheet : request.fed_round) {
    if (sheet < 1 || sheet > request.sheets) {
      throw Error(fmt::format("--fed-round {}", sheet),
                  tr("is not one of the {} sheets", request.sheets));
    }
  }
  check_outputs({request.pdf, request.geometry.value_or(""), request.print_card.value_or("")},
                request.replace);
}

}  // namespace

TargetReport run_target(const TargetRequest& request) {
  check(request);
  TargetReport report;
  report.geometry = target_geometry(request.paper, request.turn);
  report.run = request.run ? *request.run : run_code(std::random_device{}());
  PdfDocument document{
      tr("Versolay target, {}, run {}", request.paper.name, report.run), request.turn, {}};
  for (int sheet = 1; sheet <= request.sheets; ++sheet) {
    for (const Side side : {Side::recto, Side::verso}) {
      const PageIdentity identity{request.paper, request.turn, report.run, sheet, side};
      document.pages.push_back(
          {request.paper, target_page(report.geometry, identity,
                                      words::target_page_words(identity, request.label))});
      if (request.fed_round.contains(sheet)) {
        document.pages.back().page_from_content = {-Eigen::Matrix2d::Identity(),
                                                   Eigen::Vector2d::Zero()};
      }
    }
  }
  report.pages = static_cast<int>(document.pages.size());
  const std::string pdf = render_pdf(document);
  const std::string geometry = to_text(geometry_json(report.geometry));
  const std::string card =
      request.print_card ? print_card_pdf({request.paper, request.turn, request.sheets, report.run})
                         : "";
  write_file_atomically(request.pdf, pdf, request.replace);
  if (request.geometry) write_file_atomically(*request.geometry, geometry, request.replace);
  if (request.print_card) write_file_atomically(*request.print_card, card, request.replace);
  return report;
}

}  // namespace versolay
