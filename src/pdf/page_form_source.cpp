#include "pdf/page_form_source.h"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <qpdf/QPDFAcroFormDocumentHelper.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <stdexcept>

#include "core/files.h"
#include "core/numbers.h"
#include "pdf/findings.h"
#include "pdf/finish.h"
#include "pdf/reading_errors.h"
#include "pdf/unpacking_budget.h"
#include "versolay/result.h"

namespace versolay {
namespace {

constexpr double kLeastBleedPt = 0.5;  // less is rounding
constexpr double kLeastPageMm = 0.1;

/// How far `inner` is inside `outer` on all four sides; 0 when it sticks out.
double least_gap(const PdfBox& outer, const PdfBox& inner) {
  return std::max(0.0, std::min({inner.llx - outer.llx, inner.lly - outer.lly,
                                 outer.urx - inner.urx, outer.ury - inner.ury}));
}

std::string start_of(const std::string& file) {
  std::string start(1024, '\0');
  std::ifstream in(file, std::ios::binary);
  in.read(start.data(), static_cast<std::streamsize>(start.size()));
  start.resize(static_cast<std::size_t>(in.gcount()));
  return start;
}

}  // namespace

PageFormSource::PageFormSource(const std::string& file)
    : source_(std::make_unique<QPDF>()), budget_(file) {
  require_file(file);
  UnpackingBudget unpacking(file);
  try {
    source_->setSuppressWarnings(true);
    source_->processFile(file.c_str());
    (void)source_->getAllObjects();  // object streams are unpacked here and nowhere else
    if (source_->isEncrypted() && !source_->allowModifyAll()) {
      throw Error(file, findings::protected_art());
    }
    QPDFPageDocumentHelper document(*source_);
    pages_ = document.getAllPages();
    if (pages_.size() > kMostPages) {
      throw Error(file, findings::too_many_art_pages(static_cast<std::int64_t>(pages_.size()),
                                                     static_cast<std::int64_t>(kMostPages)));
    }
    QPDFAcroFormDocumentHelper(*source_).generateAppearancesIfNeeded();
    require_few_annotations(pages_, file);
    document.flattenAnnotations(an_print);
    unpacking.require_kept();
    for (int page = 1; page <= pages(); ++page) {
      const ShownPage shown = part(page).shown;
      if (shown.width_mm >= kLeastPageMm && shown.height_mm >= kLeastPageMm &&
          std::isfinite(shown.width_mm) && std::isfinite(shown.height_mm)) {
        continue;
      }
      throw Error(file + "#" + std::to_string(page), findings::art_page_without_size());
    }
  } catch (const std::runtime_error&) {
    throw_reading_error(file, start_of(file), unpacking);
  }
  if (pages_.empty()) throw Error(file, findings::no_pages());
}

PageFormSource::Part PageFormSource::part(int page) {
  QPDFPageObjectHelper& helper = pages_.at(static_cast<std::size_t>(page) - 1);
  const PdfBox visible = visible_box(helper);
  auto trim_box = helper.getObjectHandle().getKey("/TrimBox");
  Part part{visible, {}, 0.0};
  if (trim_box.isRectangle()) {
    const PdfBox trim = trim_box.getArrayAsRectangle();
    const double gap = least_gap(visible, trim);
    const bool inside = trim.llx >= visible.llx && trim.lly >= visible.lly &&
                        trim.urx <= visible.urx && trim.ury <= visible.ury && trim.urx > trim.llx &&
                        trim.ury > trim.lly;
    if (inside) part.box = {trim.llx - gap, trim.lly - gap, trim.urx + gap, trim.ury + gap};
    if (inside && gap >= kLeastBleedPt) {
      auto unit = helper.getObjectHandle().getKey("/UserUnit");
      part.bleed_mm = mm_from_pt(gap * (unit.isNumber() ? unit.getNumericValue() : 1.0));
    }
  }
  part.shown = shown_part(helper, part.box);
  return part;
}

QPDFObjectHandle PageFormSource::unit_form(QPDF& pdf, int page) {
  const Part p = part(page);
  auto form = page_form(*source_, pages_.at(static_cast<std::size_t>(page) - 1), p.box, budget_);
  const Eigen::Vector2d size(pt_from_mm(p.shown.width_mm), pt_from_mm(p.shown.height_mm));
  const Eigen::Matrix2d to_unit = size.cwiseInverse().asDiagonal().toDenseMatrix();
  const auto& shown = p.shown.shown_from_source;
  const Eigen::Matrix2d linear = to_unit * shown.linear();
  const Eigen::Vector2d offset = to_unit * shown.offset();
  auto matrix = QPDFObjectHandle::newArray();
  for (double v :
       {linear(0, 0), linear(1, 0), linear(0, 1), linear(1, 1), offset.x(), offset.y()}) {
    matrix.appendItem(QPDFObjectHandle::newReal(format_number(v, 15)));
  }
  form.getDict().replaceKey("/Matrix", matrix);
  return pdf.copyForeignObject(form);
}

}  // namespace versolay
