#include "pdf/canvas.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "core/numbers.h"
#include "pdf/fonts.h"

namespace versolay {
namespace {

constexpr double kCircleToleranceMm = 2e-5;

/// Number of equal Bezier arcs that keep within `kCircleToleranceMm` of the circle. A quarter
/// circle with handles 4/3 tan(angle/4) is off by 2.73e-4 of the radius at most, and the error
/// falls with the sixth power of the angle (checked against sampled curves in the tests).
int arcs_of_circle(double radius_mm) {
  constexpr double kQuarterError = 2.73e-4;
  int arcs = 4;
  while (radius_mm * kQuarterError * std::pow(4.0 / arcs, 6) > kCircleToleranceMm) ++arcs;
  return arcs;
}

HPDF_REAL finite(double value) {
  if (!std::isfinite(value)) {
    throw std::logic_error("a coordinate that is not finite would be drawn");
  }
  return static_cast<HPDF_REAL>(value);
}

HPDF_REAL size_pt(double mm) {
  if (mm < 0) throw std::logic_error("a negative size would be drawn");
  return finite(pt_from_mm(mm));
}

class Pen {
 public:
  Pen(HaruDocument& document, const Paper& paper)
      : document_(document),
        paper_(paper),
        page_(document.add_page(pt_from_mm(paper.width_mm), pt_from_mm(paper.height_mm))) {}

  void operator()(const Disc& disc) {
    fill_with(disc.ink);
    circle(disc.centre, disc.outer_radius_mm);
    if (disc.inner_radius_mm > 0) circle(disc.centre, disc.inner_radius_mm);
    HPDF_Page_Eofill(page_);
    done("drawing a disc");
  }

  void operator()(const Polygon& polygon) {
    if (polygon.corners.size() < 3) return;
    fill_with(polygon.ink);
    path(polygon.corners);
    HPDF_Page_ClosePath(page_);
    HPDF_Page_Fill(page_);
    done("drawing a polygon");
  }

  void operator()(const Boxes& shape) {
    if (shape.boxes.empty()) return;
    fill_with(shape.ink);
    for (const PageRect& box : shape.boxes) {
      const Point<PageMm> lower_left{box.left_mm, box.bottom_mm};
      HPDF_Page_Rectangle(page_, x(lower_left), y(lower_left), size_pt(box.width_mm()),
                          size_pt(box.height_mm()));
    }
    HPDF_Page_Fill(page_);  // all run the same way round, so that overlaps are filled
    done("drawing boxes");
  }

  void operator()(const Polyline& line) {
    if (line.points.size() < 2) return;
    require_finite(line.points);
    begin_stroke(line.ink, line.width_mm, line.dash_mm);
    path(line.points);
    if (line.closed) HPDF_Page_ClosePath(page_);
    end_stroke();
    done("drawing a line");
  }

  void operator()(const CircleOutline& outline) {
    require_finite({outline.centre});
    size_pt(outline.radius_mm);
    begin_stroke(outline.ink, outline.width_mm, outline.dash_mm);
    circle(outline.centre, outline.radius_mm);
    end_stroke();
    done("drawing a circle");
  }

  void operator()(const Text& text) {
    const std::string utf8 = printable_text(text.utf8);
    fill_with(text.ink);
    const double shift = text.align == Align::left ? 0.0 : text.align == Align::centre ? 0.5 : 1.0;
    const double back_mm = shift * text_width_mm(utf8, text.size_mm, text.bold);
    const double angle = text.angle_deg * std::numbers::pi / 180.0;  // clockwise as seen, y down
    const Point<PageMm> start{text.at.x - back_mm * std::cos(angle),
                              text.at.y - back_mm * std::sin(angle)};
    HPDF_Page_BeginText(page_);
    HPDF_Page_SetFontAndSize(page_, document_.font(text.bold), size_pt(text.size_mm));
    HPDF_Page_SetTextMatrix(page_, finite(std::cos(angle)), finite(-std::sin(angle)),
                            finite(std::sin(angle)), finite(std::cos(angle)), x(start), y(start));
    HPDF_Page_ShowText(page_, utf8.c_str());
    HPDF_Page_EndText(page_);
    done("setting the text \"" + utf8 + "\"");
  }

 private:
  HPDF_REAL x(const Point<PageMm>& p) const {
    return finite(pt_from_mm(p.x + paper_.width_mm / 2) * units_per_pt_);
  }
  HPDF_REAL y(const Point<PageMm>& p) const {
    return finite(pt_from_mm(paper_.height_mm / 2 - p.y) * units_per_pt_);
  }

  /// libharu loses a graphics state that is not restored: nothing may throw within a stroke.
  void require_finite(const std::vector<Point<PageMm>>& points) const {
    for (const Point<PageMm>& p : points) {
      x(p);
      y(p);
    }
  }

  void fill_with(Black ink) { HPDF_Page_SetGrayFill(page_, finite(1.0 - ink.k)); }

  /// Dashes of libharu are whole units, 1 to 100 of them: inside a dashed stroke a unit is
  /// 1/4 pt = 0.09 mm (a power of two, so that nothing else moves).
  void begin_stroke(Black ink, double width_mm, double dash_mm) {
    const HPDF_REAL grey = finite(1.0 - ink.k);
    const double width_pt = size_pt(width_mm);
    finite(dash_mm);
    HPDF_Page_GSave(page_);
    if (dash_mm > 0) {
      units_per_pt_ = 4.0;
      HPDF_Page_Concat(page_, 0.25F, 0, 0, 0.25F, 0, 0);
      const double units = std::clamp(std::round(pt_from_mm(dash_mm) * units_per_pt_), 1.0, 100.0);
      const HPDF_UINT16 dash[] = {static_cast<HPDF_UINT16>(units)};
      HPDF_Page_SetDash(page_, dash, 1, 0);
    }
    HPDF_Page_SetGrayStroke(page_, grey);
    HPDF_Page_SetLineWidth(page_, static_cast<HPDF_REAL>(width_pt * units_per_pt_));
  }

  void end_stroke() {
    HPDF_Page_Stroke(page_);
    HPDF_Page_GRestore(page_);
    units_per_pt_ = 1.0;
  }

  void path(const std::vector<Point<PageMm>>& points) {
    HPDF_Page_MoveTo(page_, x(points.front()), y(points.front()));
    for (std::size_t i = 1; i < points.size(); ++i) {
      HPDF_Page_LineTo(page_, x(points[i]), y(points[i]));
    }
  }

  void circle(const Point<PageMm>& centre, double radius_mm) {
    size_pt(radius_mm);  // refuses a negative or endless radius before the arcs are counted
    const int arcs = arcs_of_circle(radius_mm);
    const double step = 2 * std::numbers::pi / arcs;
    const double handle = 4.0 / 3.0 * std::tan(step / 4);
    const auto at = [&](double angle, double ahead) {
      return Point<PageMm>{centre.x + radius_mm * (std::cos(angle) - ahead * std::sin(angle)),
                           centre.y + radius_mm * (std::sin(angle) + ahead * std::cos(angle))};
    };
    const Point<PageMm> first = at(0, 0);
    HPDF_Page_MoveTo(page_, x(first), y(first));
    for (int i = 0; i < arcs; ++i) {
      const Point<PageMm> out = at(i * step, handle);
      const Point<PageMm> in = at((i + 1) * step, -handle);
      const Point<PageMm> end = i + 1 == arcs ? first : at((i + 1) * step, 0);
      HPDF_Page_CurveTo(page_, x(out), y(out), x(in), y(in), x(end), y(end));
    }
    HPDF_Page_ClosePath(page_);
  }

  void done(const std::string& doing) { document_.check(doing); }

  HaruDocument& document_;
  const Paper& paper_;
  HPDF_Page page_;
  double units_per_pt_ = 1.0;
};

}  // namespace

void draw_page(HaruDocument& document, const Paper& paper, const Drawing& drawing) {
  Pen pen(document, paper);
  for (const Shape& shape : drawing) std::visit(pen, shape);
}

}  // namespace versolay
