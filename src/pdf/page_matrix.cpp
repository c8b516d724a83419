#include "pdf/page_matrix.h"

#include <cmath>
#include <stdexcept>

#include "core/numbers.h"

namespace versolay {

Affine<PdfPt, PageMm> pt_from_page_mm(const Paper& paper) {
  const double pt_per_mm = pt_from_mm(1.0);
  return {Eigen::Vector2d(pt_per_mm, -pt_per_mm).asDiagonal().toDenseMatrix(),
          {pt_from_mm(paper.width_mm / 2), pt_from_mm(paper.height_mm / 2)}};
}

std::string matrix_operands(const Eigen::Matrix2d& linear, const Eigen::Vector2d& offset) {
  std::string text;
  for (double v :
       {linear(0, 0), linear(1, 0), linear(0, 1), linear(1, 1), offset.x(), offset.y()}) {
    if (!std::isfinite(v)) throw std::logic_error("a matrix that is not finite would be written");
    text += (text.empty() ? "" : " ") + format_number(v, 9);
  }
  return text;
}

}  // namespace versolay
