// Between page millimetres and the points of a PDF.
#pragma once

#include <string>

#include "versolay/frames.h"
#include "versolay/paper.h"

namespace versolay {

struct PdfPt {};  // PDF default user space: points, origin lower left, y up

/// For a page whose lower left corner is the origin of the PDF's user space.
Affine<PdfPt, PageMm> pt_from_page_mm(const Paper& paper);

/// "a b c d e f" for the operator cm or a /Matrix, with nine decimals. PDF writes the matrix for
/// row vectors: x' = a x + c y + e, y' = b x + d y + f (ISO 32000-1, 8.3.3). Throws
/// std::logic_error when an entry is not finite.
std::string matrix_operands(const Eigen::Matrix2d& linear, const Eigen::Vector2d& offset);

template <class Target, class Source>
std::string matrix_operands(const Affine<Target, Source>& map) {
  return matrix_operands(map.linear(), map.offset());
}

}  // namespace versolay
