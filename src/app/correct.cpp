#include "app/correct.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>

#include "app/profile_match.h"
#include "artwork/coded_image.h"
#include "artwork/warp.h"
#include "core/files.h"
#include "core/numbers.h"
#include "pdf/correct_pages.h"
#include "pdf/pdf_document.h"

namespace versolay {
namespace {

constexpr double kShapeTolerance = 0.01;

std::string lower_extension(const std::filesystem::path& path) {
  std::string extension = path.extension().string();
  std::transform(extension.begin(), extension.end(), extension.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return extension;
}

/// An image of a whole page must have the shape of the page.
std::optional<Refusal> shape_refusal(const std::filesystem::path& file, int width_px, int height_px,
                                     const Paper& paper) {
  const double error =
      (static_cast<double>(width_px) / height_px) / (paper.width_mm / paper.height_mm) - 1;
  if (std::abs(error) <= kShapeTolerance) return std::nullopt;
  return Refusal{
      "image_shape",
      fmt::format("{} is {} x {} px; an image of the whole page of {} x {} mm would be {} x {} px "
                  "at 300 ppi, or as much larger or smaller in both directions. Give the "
                  "whole page, upright, or lay out single cards with versolay impose.",
                  file.string(), width_px, height_px, format_number(paper.width_mm, 1),
                  format_number(paper.height_mm, 1),
                  std::lround(artwork_px_from_mm(paper.width_mm, 300)),
                  std::lround(artwork_px_from_mm(paper.height_mm, 300)))};
}

Result<CorrectReport> correct_pdf(const CorrectRequest& r, CorrectReport report) {
  const PrinterProfile& profile = r.profile;
  const Result<CorrectedPdf> corrected =
      correct_back_pages({r.input.string(), read_file(r.input), profile.paper, profile.turn,
                          profile.mean.page_from_wanted()});
  if (!corrected) return corrected.refusal();
  report.kind = CorrectedKind::pdf_from_pdf;
  report.pages = corrected.value().pages;
  const Notices& warnings = corrected.value().warnings;
  report.warnings.insert(report.warnings.end(), warnings.begin(), warnings.end());
  write_file_atomically(r.out, corrected.value().bytes, r.replace);
  return report;
}

PdfPage page_of(const Paper& paper, std::size_t image) {
  const PageRect all{-paper.width_mm / 2, -paper.height_mm / 2, paper.width_mm / 2,
                     paper.height_mm / 2};
  return {paper, {}, {{image, {0.0, 0.0}, paper.width_mm, paper.height_mm, 0, all}}};
}

Result<CorrectReport> pdf_from_images(const CorrectRequest& r, CorrectReport report) {
  const Paper& paper = r.profile.paper;
  PdfDocument document{r.out.stem().string(), r.profile.turn, {}};
  for (const auto& file : {r.input, *r.back}) {
    CodedImage image = read_coded_image(file);
    if (const auto no = shape_refusal(file, image.seen_width_px(), image.seen_height_px(), paper)) {
      return *no;
    }
    report.ppi = image.seen_width_px() / paper.width_mm * kMmPerInch;
    document.pages.push_back(page_of(paper, document.images.size()));
    document.images.push_back(std::move(image));
  }
  document.pages[1].page_from_content =
      relabel_affine<PageMm, PageMm>(r.profile.mean.page_from_wanted());
  report.kind = CorrectedKind::pdf_from_images;
  report.pages = 2;
  write_file_atomically(r.out, render_pdf(document), r.replace);
  return report;
}

/// The image covers the page: its pixels and the page's millimetres differ by size and origin.
Affine<ArtworkPx, VersoMm> px_from_page(const Raster& image, const Paper& paper) {
  return {Eigen::Vector2d(image.width_px / paper.width_mm, image.height_px / paper.height_mm)
              .asDiagonal()
              .toDenseMatrix(),
          {image.width_px / 2.0, image.height_px / 2.0}};
}

Result<CorrectReport> image_from_image(const CorrectRequest& r, CorrectReport report) {
  const Raster back = read_raster(*r.back);
  const Paper& paper = r.profile.paper;
  const CodedImage front = read_coded_image(r.input);
  if (const auto no =
          shape_refusal(r.input, front.seen_width_px(), front.seen_height_px(), paper)) {
    return *no;
  }
  if (const auto no = shape_refusal(*r.back, back.width_px, back.height_px, paper)) return *no;
  const Affine<ArtworkPx, VersoMm> px_from_mm = px_from_page(back, paper);
  const auto wanted_px_from_page_px =
      px_from_mm * r.profile.mean.landed_from_page() * px_from_mm.inverse();
  report.kind = CorrectedKind::image_from_image;
  report.pages = 1;
  report.ppi = back.width_px / paper.width_mm * kMmPerInch;
  write_file_atomically(r.out, encode_png(warped(back, wanted_px_from_page_px)), r.replace);
  return report;
}

}  // namespace

Result<CorrectReport> correct(const CorrectRequest& r) {
  check_output(r.out, r.replace);
  const std::string extension = lower_extension(r.out);
  CorrectReport report;
  report.correction = registration_from(r.profile.mean.page_from_wanted());
  if (const auto remark = unproven_shift(r.profile)) report.warnings.push_back(*remark);
  if (!r.back) {
    if (extension != ".pdf") throw Error(r.out.string(), "must end in .pdf, as the input is a PDF");
    return correct_pdf(r, report);
  }
  if (extension == ".pdf") return pdf_from_images(r, report);
  if (extension == ".png") return image_from_image(r, report);
  throw Error(r.out.string(),
              "must end in .pdf (front and back, nothing resampled) or .png (the moved back)");
}

}  // namespace versolay
