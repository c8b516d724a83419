// The last step for every PDF, whoever drew its pages: boxes, preferences for the print dialogue,
// names and dates, and writing the file.
#pragma once

#include <cstdio>
#include <qpdf/QPDF.hh>
#include <string>

#include "versolay/paper.h"

namespace versolay {

/// MediaBox, CropBox, BleedBox and TrimBox all become [0 0 width height] of the paper, exact to
/// 1e-9 pt; no rotation, no UserUnit.
void set_page_boxes(QPDFObjectHandle page, const Paper& paper);

/// ViewerPreferences (ISO 32000-2, table 147): PrintScaling None, Enforce, Duplex,
/// PickTrayByPDFSize. Wishes, not orders: the print dialogue can overrule all but the enforced.
void set_print_wishes(QPDF& pdf, Turn turn);

/// Title (UTF-8; empty: left as it is), Producer, and CreationDate and ModDate from utc_now().
void set_information(QPDF& pdf, const std::string& title);

/// The bytes: compressed, with an ID made from the content.
std::string write_pdf(QPDF& pdf);
void write_pdf(QPDF& pdf, std::FILE* file);

/// A real number of a PDF, at most nine decimals, independent of the locale.
QPDFObjectHandle pdf_real(double value);

}  // namespace versolay
