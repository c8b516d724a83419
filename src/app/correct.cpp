#include "app/correct.h"

#include <algorithm>
#include <cmath>

#include "artwork/coded_image.h"
#include "artwork/raster.h"
#include "artwork/warp.h"
#include "core/field_range.h"
#include "core/file_names.h"
#include "core/files.h"
#include "imposition/card_list.h"
#include "imposition/page_reach.h"
#include "pdf/correct_pages.h"
#include "pdf/pdf_document.h"
#include "profile/profile_match.h"
#include "words/findings.h"

namespace versolay {
namespace {

constexpr double kShapeTolerance = 0.01;
constexpr double kSizeToleranceMm = 0.5;

/// An image of a whole page must have the shape of the page, and its size at a stated resolution.
std::optional<Refusal> shape_refusal(const std::filesystem::path& file, int width_px, int height_px,
                                     const CorrectRequest& r) {
  const Paper& paper = r.profile.paper;
  const auto px = [&](double mm, double ppi) { return std::lround(artwork_px_from_mm(mm, ppi)); };
  if (r.ppi) {
    const double off_x = width_px * kMmPerInch / *r.ppi - paper.width_mm;
    const double off_y = height_px * kMmPerInch / *r.ppi - paper.height_mm;
    if (std::max(std::abs(off_x), std::abs(off_y)) <= kSizeToleranceMm) return std::nullopt;
    return findings::image_size(file.string(), width_px, height_px, Length{paper.width_mm},
                                Length{paper.height_mm}, *r.ppi, px(paper.width_mm, *r.ppi),
                                px(paper.height_mm, *r.ppi));
  }
  const double error =
      (static_cast<double>(width_px) / height_px) / (paper.width_mm / paper.height_mm) - 1;
  if (std::abs(error) <= kShapeTolerance) return std::nullopt;
  return findings::image_shape(file.string(), width_px, height_px, Length{paper.width_mm},
                               Length{paper.height_mm}, px(paper.width_mm, 300),
                               px(paper.height_mm, 300));
}

Result<CorrectReport> correct_pdf(const CorrectRequest& r, CorrectReport report) {
  const PrinterProfile& profile = r.profile;
  const Result<CorrectedPdf> corrected =
      correct_back_pages({r.input.string(), read_file(r.input), profile.paper, profile.turn,
                          profile.mean.page_from_wanted(), r.backs});
  if (!corrected) return corrected.refusal();
  report.kind = CorrectedKind::pdf_from_pdf;
  report.pages = corrected.value().pages;
  report.backs = corrected.value().corrected;
  const Notices& warnings = corrected.value().warnings;
  report.warnings.insert(report.warnings.end(), warnings.begin(), warnings.end());
  write_file_atomically(r.out, corrected.value().bytes, r.replace);
  return report;
}

/// The image in the middle of its page, covering it or at its stated resolution.
PdfPage page_of(const CorrectRequest& r, const CodedImage& image, std::size_t index) {
  const Paper& paper = r.profile.paper;
  const PageRect all{-paper.width_mm / 2, -paper.height_mm / 2, paper.width_mm / 2,
                     paper.height_mm / 2};
  const double width = r.ppi ? image.seen_width_px() * kMmPerInch / *r.ppi : paper.width_mm;
  const double height = r.ppi ? image.seen_height_px() * kMmPerInch / *r.ppi : paper.height_mm;
  return {paper, {}, {{index, {0.0, 0.0}, width, height, 0, all}}};
}

Result<CorrectReport> pdf_from_images(const CorrectRequest& r, CorrectReport report) {
  const Paper& paper = r.profile.paper;
  PdfDocument document{r.out.stem().string(), r.profile.turn, {}};
  for (const auto& file : {r.input, *r.back}) {
    const ArtFile art = named_art(file);
    CodedImage image = read_coded_image(art.path, art.page);
    if (const auto no = shape_refusal(file, image.seen_width_px(), image.seen_height_px(), r)) {
      return *no;
    }
    report.ppi = r.ppi.value_or(image.seen_width_px() / paper.width_mm * kMmPerInch);
    document.pages.push_back(page_of(r, image, document.images.size()));
    document.images.push_back(std::move(image));
  }
  document.pages[1].page_from_content =
      relabel_affine<PageMm, PageMm>(r.profile.mean.page_from_wanted());
  document.backs_moved = report.correction;
  report.kind = CorrectedKind::pdf_from_images;
  report.pages = 2;
  write_file_atomically(r.out, render_pdf(document), r.replace);
  return report;
}

/// Pixels and page millimetres differ by scale and origin; the middles agree. The image covers the
/// page, or has the stated resolution.
Affine<ArtworkPx, VersoMm> px_from_page(const Raster& image, const CorrectRequest& r) {
  const Paper& paper = r.profile.paper;
  const double stated = r.ppi.value_or(0.0) / kMmPerInch;
  return {Eigen::Vector2d(stated > 0 ? stated : image.width_px / paper.width_mm,
                          stated > 0 ? stated : image.height_px / paper.height_mm)
              .asDiagonal()
              .toDenseMatrix(),
          {image.width_px / 2.0, image.height_px / 2.0}};
}

Result<CorrectReport> image_from_image(const CorrectRequest& r, CorrectReport report) {
  const ArtFile back_art = named_art(*r.back);
  const ArtFile front_art = named_art(r.input);
  Raster back = read_raster(back_art.path, back_art.page);
  if (r.ppi && !back.ppi_x) back.ppi_x = back.ppi_y = r.ppi;
  const CodedImage front = read_coded_image(front_art.path, front_art.page);
  if (const auto no = shape_refusal(r.input, front.seen_width_px(), front.seen_height_px(), r)) {
    return *no;
  }
  if (const auto no = shape_refusal(*r.back, back.width_px, back.height_px, r)) return *no;
  const Affine<ArtworkPx, VersoMm> px_from_mm = px_from_page(back, r);
  const auto wanted_px_from_page_px =
      px_from_mm * r.profile.mean.landed_from_page() * px_from_mm.inverse();
  report.kind = CorrectedKind::image_from_image;
  report.pages = 1;
  report.ppi = px_from_mm.linear()(0, 0) * kMmPerInch;
  const Raster moved = warped(back, wanted_px_from_page_px);
  const bool png = lower_extension(r.out) == ".png";
  write_file_atomically(r.out, png ? encode_png(moved) : encode_tiff(moved), r.replace);
  return report;
}

/// How far the artwork must reach on these pages, and whether it does.
void look_at_reach(const CorrectRequest& r, CorrectReport& report) {
  if (!r.card) return;
  GridRequest cards;
  cards.paper = r.profile.paper;
  cards.card = *r.card;
  cards.shape = r.grid;
  cards.gutter_mm = r.gutter_mm;
  cards.margins = r.margins;
  PageReach reach = page_reach(r.profile, cards, r.ppi, pages_of_backs(r.input, r.back, r.backs));
  report.reach = reach.oversize;
  report.shared_cuts = std::move(reach.shared_cuts);
  report.warnings.insert(report.warnings.end(), reach.warnings.begin(), reach.warnings.end());
}

Result<CorrectReport> corrected(const CorrectRequest& r, const CorrectReport& report) {
  const std::string extension = lower_extension(r.out);
  if (!r.back) {
    if (has_image_name(r.input)) throw Error(r.input.string(), findings::back_image_missing());
    if (extension != ".pdf") throw Error(r.out.string(), findings::pdf_stays_a_pdf());
    return correct_pdf(r, report);
  }
  if (extension == ".pdf") return pdf_from_images(r, report);
  if (extension == ".png" || extension == ".tif" || extension == ".tiff") {
    return image_from_image(r, report);
  }
  throw Error(r.out.string(), findings::not_a_corrected_kind());
}

}  // namespace

Result<CorrectReport> run_correct(const CorrectRequest& r) {
  require_not_an_input(r.out, {r.input, r.back.value_or("")});
  check_output(r.out, r.replace);
  CorrectReport report;
  report.correction = registration_from(r.profile.mean.page_from_wanted());
  report.warnings = remarks_on(r.profile);
  if (r.profile.field.real) {
    report.warnings.push_back(findings::places_differ(Length{r.profile.field.amplitude_mm}));
  }
  if (r.ppi) require_in("ppi", *r.ppi, 30, 4800);
  look_at_reach(r, report);
  return corrected(r, report);
}

}  // namespace versolay
