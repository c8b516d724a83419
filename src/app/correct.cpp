#include "app/correct.h"

#include <algorithm>
#include <cctype>
#include <cmath>

#include "app/page_picture.h"
#include "artwork/coded_image.h"
#include "artwork/tiff_file.h"
#include "artwork/warp.h"
#include "core/files.h"
#include "core/numbers.h"
#include "imposition/art_reach.h"
#include "imposition/card_list.h"
#include "imposition/findings.h"
#include "imposition/shared_cuts.h"
#include "pdf/correct_pages.h"
#include "pdf/pdf_document.h"
#include "profile/advise.h"
#include "profile/profile_match.h"
#include "words/translation.h"

namespace versolay {
namespace {

constexpr double kShapeTolerance = 0.01;
constexpr double kSizeToleranceMm = 0.5;

std::string lower_extension(const std::filesystem::path& path) {
  std::string extension = path.extension().string();
  std::transform(extension.begin(), extension.end(), extension.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return extension;
}

/// An image of a whole page must have the shape of the page, and its size at a stated resolution.
std::optional<Refusal> shape_refusal(const std::filesystem::path& file, int width_px, int height_px,
                                     const CorrectRequest& r) {
  const Paper& paper = r.profile.paper;
  const auto px = [&](double mm, double ppi) { return std::lround(artwork_px_from_mm(mm, ppi)); };
  if (r.ppi) {
    const double off_x = width_px * kMmPerInch / *r.ppi - paper.width_mm;
    const double off_y = height_px * kMmPerInch / *r.ppi - paper.height_mm;
    if (std::max(std::abs(off_x), std::abs(off_y)) <= kSizeToleranceMm) return std::nullopt;
    return Refusal{"image_shape",
                   tr("{} is {} x {} px; the whole page of {} x {} mm at {} ppi would be {} x {} "
                      "px. Give the whole page, upright, and its true resolution (--ppi).",
                      file.string(), width_px, height_px, format_number(paper.width_mm, 1),
                      format_number(paper.height_mm, 1), format_number(*r.ppi, 1),
                      px(paper.width_mm, *r.ppi), px(paper.height_mm, *r.ppi))};
  }
  const double error =
      (static_cast<double>(width_px) / height_px) / (paper.width_mm / paper.height_mm) - 1;
  if (std::abs(error) <= kShapeTolerance) return std::nullopt;
  return Refusal{
      "image_shape",
      tr("{} is {} x {} px; an image of the whole page of {} x {} mm would be {} x {} px at 300 "
         "ppi, or the same proportions at another resolution. Give the whole page, upright, or lay "
         "out single cards with versolay impose.",
         file.string(), width_px, height_px, format_number(paper.width_mm, 1),
         format_number(paper.height_mm, 1), px(paper.width_mm, 300), px(paper.height_mm, 300))};
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

constexpr double kLookPpi = 150.0;  // 0.17 mm, enough for an oversize

/// The pages of backs, as they are before they are corrected.
std::vector<std::pair<int, Raster>> pages_of_backs(const CorrectRequest& r) {
  std::vector<std::pair<int, Raster>> pages;
  if (r.back) {
    const ArtFile art = named_art(*r.back);
    const CodedImage image = read_coded_image(art.path, art.page);
    const bool cmyk_jpeg = image.coding == PixelCoding::jpeg && image.components == 4;
    if (!cmyk_jpeg) pages.emplace_back(2, read_raster(art.path, art.page));
    return pages;
  }
  constexpr std::size_t kMostPages = 40;  // the later ones are not looked at: laid out alike
  std::vector<int> numbers = r.backs;
  for (int page = 2; r.backs.empty() && page <= 2 * static_cast<int>(kMostPages); page += 2) {
    numbers.push_back(page);
  }
  for (const int number : numbers) {
    if (pages.size() >= kMostPages) break;
    auto picture = picture_of_page(r.input, number, kLookPpi);
    if (!picture) break;
    pages.emplace_back(number, std::move(*picture));
  }
  return pages;
}

/// How far the artwork must reach on these pages, and whether it does.
void look_at_reach(const CorrectRequest& r, CorrectReport& report) {
  if (!r.card) return;
  const PrinterProfile& profile = r.profile;
  GridRequest wanted;
  wanted.paper = profile.paper;
  wanted.card = *r.card;
  wanted.shape = r.grid;
  wanted.gutter_mm = r.gutter_mm;
  wanted.margins = r.margins;
  const Result<CardGrid> grid = fit_grid(wanted);
  if (!grid) {
    report.warnings.push_back(grid.refusal());
    return;
  }
  AdviceRequest request;
  request.grid = grid.value();
  if (r.ppi) request.ppi = *r.ppi;
  const Result<BareAdvice> advice = bare_advice(profile, request);
  if (!advice) {
    report.warnings.push_back(advice.refusal());
    return;
  }
  report.reach = advice.value().oversize;
  const Reach reach{report.reach->x_mm, report.reach->y_mm};
  const auto places = verso_places(request.grid, turn_axis(profile.turn, profile.paper), reach);
  report.shared_cuts = shared_cuts(profile, request, profile.mean, places, reach);
  for (const auto& [number, picture] : pages_of_backs(r)) {
    if (const auto end = early_end_of_art(picture, profile.paper, places)) {
      report.warnings.push_back(
          findings::art_ends_early(number, Length{end->reach_mm}, Length{end->wanted_mm}));
      break;  // the others are laid out alike
    }
  }
}

Result<CorrectReport> corrected(const CorrectRequest& r, const CorrectReport& report) {
  const std::string extension = lower_extension(r.out);
  if (!r.back) {
    if (extension != ".pdf")
      throw Error(r.out.string(), tr("must end in .pdf, as the input is a PDF"));
    return correct_pdf(r, report);
  }
  if (extension == ".pdf") return pdf_from_images(r, report);
  if (extension == ".png" || extension == ".tif" || extension == ".tiff") {
    return image_from_image(r, report);
  }
  throw Error(r.out.string(), tr("must end in .pdf (front and back, nothing resampled), or in .png "
                                 "or .tif (the moved back; a JPEG would lose quality again)"));
}

}  // namespace

Result<CorrectReport> run_correct(const CorrectRequest& r) {
  require_not_an_input(r.out, {r.input, r.back.value_or("")});
  check_output(r.out, r.replace);
  CorrectReport report;
  report.correction = registration_from(r.profile.mean.page_from_wanted());
  report.warnings = remarks_on(r.profile);
  if (r.profile.field.real) {
    report.warnings.push_back(
        {"places_differ",
         tr("This printer shifts some places of the page more than others, by about {} mm. Moving "
            "a whole page cannot correct that; versolay impose moves each back separately.",
            format_number(r.profile.field.amplitude_mm, 2))});
  }
  if (r.ppi && !(*r.ppi >= 30 && *r.ppi <= 4800)) {
    throw Error("--ppi " + format_number(*r.ppi, 2), tr("must be from 30 to 4800 pixels per inch"));
  }
  look_at_reach(r, report);
  return corrected(r, report);
}

}  // namespace versolay
