// A page of another PDF as a form, which can be painted through a matrix.
#pragma once

#include <qpdf/QPDF.hh>
#include <qpdf/QPDFPageObjectHelper.hh>
#include <string>
#include <utility>

#include "pdf/page_matrix.h"

namespace versolay {

struct SourcePt {};  // user space of the page as it came

using PdfBox = QPDFObjectHandle::Rectangle;

/// A page as a viewer shows it: the CropBox, turned clockwise by /Rotate, in real points, with its
/// lower left corner at the origin.
struct ShownPage {
  Affine<PdfPt, SourcePt> shown_from_source;
  double width_mm = 0.0;
  double height_mm = 0.0;
};

ShownPage shown_page(QPDFPageObjectHelper& page);
/// The same for another part of the page than its CropBox.
ShownPage shown_part(QPDFPageObjectHelper& page, const PdfBox& part);

/// Throws Error when there are more annotations than can be drawn into the pages in a few seconds.
void require_few_annotations(std::vector<QPDFPageObjectHelper>& pages, const std::string& file);

/// CropBox and MediaBox together: what is to be seen of the page.
PdfBox visible_box(QPDFPageObjectHelper& page);

/// What may be unpacked of the contents of one file's pages.
class ContentBudget {
 public:
  /// @param file  for the message.
  explicit ContentBudget(std::string file) : file_(std::move(file)) {}
  /// Throws Error beyond 128 MB in all.
  void take(std::size_t bytes);
  void require_kept() const;

 private:
  std::string file_;
  std::size_t used_ = 0;
};

/// Counts what a stream of contents unpacks to before it is held: a few kilobytes can unpack to
/// gigabytes. Throws Error beyond the budget.
void count_content(QPDFObjectHandle stream, ContentBudget& budget);

/// An indirect form XObject in the file of the page, clipped to `box`. The content is decoded and
/// its saves and restores are balanced (a stray Q would take the matrix off the rest); annotations
/// have to be flattened before.
QPDFObjectHandle page_form(QPDF& pdf, QPDFPageObjectHelper& page, const PdfBox& box,
                           ContentBudget& budget);

}  // namespace versolay
