// An open PDF whose pages are painted in another one.
#pragma once

#include <memory>
#include <qpdf/QPDF.hh>
#include <string>
#include <vector>

#include "pdf/page_form.h"

namespace versolay {

class PageFormSource {
 public:
  /// Opens the file; annotations that print become part of the pages.
  /// Throws Error when it is not a PDF, damaged, locked, protected or without pages.
  explicit PageFormSource(const std::string& file);

  /// What is painted of a page: its trimmed part and the bleed around it.
  struct Part {
    PdfBox box;  // in the user space of the page
    ShownPage shown;
    double bleed_mm = 0.0;
  };

  int pages() const { return static_cast<int>(pages_.size()); }
  /// Precondition: 1 <= page <= pages().
  Part part(int page);

  /// The form of a page, copied into `pdf`, with the matrix that maps it to the unit square (first
  /// row of the page at y = 1), as images are. This source must live until `pdf` was written.
  QPDFObjectHandle unit_form(QPDF& pdf, int page);

 private:
  std::unique_ptr<QPDF> source_;
  std::vector<QPDFPageObjectHelper> pages_;
  ContentBudget budget_;  // of all pages that are painted
};

}  // namespace versolay
