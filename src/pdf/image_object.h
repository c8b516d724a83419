// Images as objects of a PDF.
#pragma once

#include <map>
#include <qpdf/QPDF.hh>
#include <string>

#include "pdf/page_matrix.h"
#include "pdf/pdf_document.h"

namespace versolay {

/// Colour profiles that were written already: images of one camera or editor share theirs.
using ProfileObjects = std::map<std::string, QPDFObjectHandle>;

/// An image XObject that holds the coded pixels as they are: DCTDecode for a JPEG, FlateDecode with
/// Predictor 15 for the rows of a PNG (ISO 32000-1, 7.4.4.4). The data are fetched when the PDF is
/// written; the image must live until then.
QPDFObjectHandle image_object(QPDF& pdf, const CodedImage& image, ProfileObjects& profiles);

/// The colour space of the image's samples (of the colours of its palette, if it has one).
QPDFObjectHandle colour_space(QPDF& pdf, const CodedImage& image, ProfileObjects& profiles);

/// Operators that paint a field in the colour space `name`.
std::string field_content(const ColourField& field, const Affine<PdfPt, PageMm>& pt_from_page,
                          const std::string& name);

/// Operators that crop and paint the image `name`.
std::string image_content(const PlacedImage& placed, int orientation,
                          const Affine<PdfPt, PageMm>& pt_from_page, const std::string& name);

}  // namespace versolay
