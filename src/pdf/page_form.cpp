#include "pdf/page_form.h"

#include <algorithm>
#include <array>
#include <qpdf/Pipeline.hh>
#include <qpdf/Pl_String.hh>
#include <string>

#include "core/numbers.h"
#include "pdf/findings.h"
#include "versolay/result.h"

namespace versolay {
namespace {

// qpdf takes 2 s for these on one page, and four times as long for twice as many.
constexpr int kMostAnnotations = 4000;

PdfBox intersection(const PdfBox& a, const PdfBox& b) {
  return {std::max(a.llx, b.llx), std::max(a.lly, b.lly), std::min(a.urx, b.urx),
          std::min(a.ury, b.ury)};
}

/// Drops every Q that has no q, and appends the Qs that are missing. A stray Q would take the
/// correction off the rest of the page.
class BalanceSaves : public QPDFObjectHandle::TokenFilter {
 public:
  void handleToken(const QPDFTokenizer::Token& token) override {
    if (token.isWord("q")) ++depth_;
    if (token.isWord("Q") && depth_-- == 0) {
      depth_ = 0;
      return;
    }
    writeToken(token);
  }
  void handleEOF() override {
    for (; depth_ > 0; --depth_) write("\nQ");
  }

 private:
  int depth_ = 0;
};

/// Counts what comes by, and stops at the budget.
class Counter : public Pipeline {
 public:
  explicit Counter(ContentBudget& budget) : Pipeline("counter", nullptr), budget_(budget) {}
  void write(const unsigned char*, std::size_t count) override { budget_.take(count); }
  void finish() override {}

 private:
  ContentBudget& budget_;
};

/// Decoded and balanced now: a form that reads the page later would find itself in it.
std::string balanced_content(QPDFPageObjectHelper& page, ContentBudget& budget) {
  for (auto& stream : page.getObjectHandle().getPageContents()) count_content(stream, budget);
  std::string content;
  Pl_String collect("page content", nullptr, content);
  BalanceSaves filter;
  page.filterContents(&filter, &collect);
  return content;
}

QPDFObjectHandle shared(QPDFObjectHandle object) {
  return object.isIndirect() || object.isNull() ? object : object.shallowCopy();
}

}  // namespace

void count_content(QPDFObjectHandle stream, ContentBudget& budget) {
  Counter counter(budget);
  stream.pipeStreamData(&counter, 0, qpdf_dl_generalized, true);
  budget.require_kept();  // qpdf takes what a pipeline throws for a damaged stream
}

PdfBox visible_box(QPDFPageObjectHelper& page) {
  return intersection(page.getCropBox().getArrayAsRectangle(),
                      page.getMediaBox().getArrayAsRectangle());
}

ShownPage shown_page(QPDFPageObjectHelper& page) { return shown_part(page, visible_box(page)); }

ShownPage shown_part(QPDFPageObjectHelper& page, const PdfBox& box) {
  const double width = box.urx - box.llx;
  const double height = box.ury - box.lly;
  auto rotate = page.getAttribute("/Rotate", false);
  const int degrees = rotate.isInteger() ? rotate.getIntValueAsInt() : 0;
  const int quarters = ((degrees / 90) % 4 + 4) % 4;
  auto unit = page.getObjectHandle().getKey("/UserUnit");
  const double pt_per_unit = unit.isNumber() ? unit.getNumericValue() : 1.0;

  Eigen::Matrix2d turn;  // clockwise, y up
  turn << std::array{1, 0, -1, 0}[quarters], std::array{0, 1, 0, -1}[quarters],
      std::array{0, -1, 0, 1}[quarters], std::array{1, 0, -1, 0}[quarters];
  const Eigen::Vector2d middle((box.llx + box.urx) / 2, (box.lly + box.ury) / 2);
  const bool lies = quarters % 2 != 0;
  const Eigen::Vector2d shown_size =
      pt_per_unit * Eigen::Vector2d(lies ? height : width, lies ? width : height);
  const Eigen::Matrix2d linear = pt_per_unit * turn;
  return {{linear, shown_size / 2 - linear * middle},
          mm_from_pt(shown_size.x()),
          mm_from_pt(shown_size.y())};
}

void require_few_annotations(std::vector<QPDFPageObjectHelper>& pages, const std::string& file) {
  int annotations = 0;
  for (QPDFPageObjectHelper& page : pages) {
    auto list = page.getObjectHandle().getKey("/Annots");
    if (list.isArray()) annotations += list.getArrayNItems();
  }
  if (annotations <= kMostAnnotations) return;
  throw Error(file, findings::too_many_annotations(annotations, kMostAnnotations));
}

void ContentBudget::take(std::size_t bytes) {
  used_ += bytes;
  require_kept();
}

void ContentBudget::require_kept() const {
  constexpr std::size_t kMostBytes = 128u << 20;
  if (used_ <= kMostBytes) return;
  throw Error(file_, findings::too_much_drawn());
}

QPDFObjectHandle page_form(QPDF& pdf, QPDFPageObjectHelper& page, const PdfBox& box,
                           ContentBudget& budget) {
  auto form = pdf.newStream(balanced_content(page, budget));
  auto dictionary = form.getDict();
  dictionary.replaceKey("/Type", QPDFObjectHandle::newName("/XObject"));
  dictionary.replaceKey("/Subtype", QPDFObjectHandle::newName("/Form"));
  dictionary.replaceKey("/BBox", QPDFObjectHandle::newFromRectangle(box));
  dictionary.replaceKey("/Resources", shared(page.getAttribute("/Resources", false)));
  if (page.getObjectHandle().hasKey("/Group")) {
    dictionary.replaceKey("/Group", shared(page.getObjectHandle().getKey("/Group")));
  }
  return form;
}

}  // namespace versolay
