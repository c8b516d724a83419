#include "report/svg.h"

#include <fmt/format.h>

#include "core/numbers.h"
#include "report/html_text.h"

namespace versolay {
namespace {

std::string number(double value) { return format_number(value, 3); }

/// Paint of a filled or a stroked shape. Ink 0 is the paper itself; the inks between are shades of
/// the colour of the layer, so that they turn with it on a dark page.
std::string fill(Black ink) {
  if (ink.k <= 0) return "class=\"paper\"";
  if (ink.k >= 1) return "fill=\"currentColor\"";
  return fmt::format("fill=\"currentColor\" fill-opacity=\"{}\"", number(ink.k));
}

std::string stroke(Black ink, double width_mm, double dash_mm = 0.0) {
  std::string text = ink.k <= 0 ? std::string("fill=\"none\" class=\"paper-line\"")
                                : std::string("fill=\"none\" stroke=\"currentColor\"");
  if (ink.k > 0 && ink.k < 1) text += fmt::format(" stroke-opacity=\"{}\"", number(ink.k));
  text += fmt::format(" stroke-width=\"{}\"", number(width_mm));
  if (dash_mm > 0) text += fmt::format(" stroke-dasharray=\"{}\"", number(dash_mm));
  return text;
}

std::string points_of(const std::vector<Point<PageMm>>& points) {
  std::string text;
  for (const Point<PageMm>& p : points) {
    text += fmt::format("{}{},{}", text.empty() ? "" : " ", number(p.x), number(p.y));
  }
  return text;
}

std::string circle(const Point<PageMm>& centre, double radius_mm, const std::string& paint) {
  return fmt::format("<circle cx=\"{}\" cy=\"{}\" r=\"{}\" {}/>", number(centre.x),
                     number(centre.y), number(radius_mm), paint);
}

struct SvgWriter {
  std::string operator()(const Disc& d) const {
    if (d.inner_radius_mm <= 0) return circle(d.centre, d.outer_radius_mm, fill(d.ink));
    const double middle = (d.outer_radius_mm + d.inner_radius_mm) / 2;
    return circle(d.centre, middle, stroke(d.ink, d.outer_radius_mm - d.inner_radius_mm));
  }
  std::string operator()(const Polygon& p) const {
    return fmt::format("<polygon points=\"{}\" {}/>", points_of(p.corners), fill(p.ink));
  }
  std::string operator()(const Boxes& b) const {
    std::string path;
    for (const PageRect& box : b.boxes) {
      path += fmt::format("M{} {}H{}V{}H{}Z", number(box.left_mm), number(box.top_mm),
                          number(box.right_mm), number(box.bottom_mm), number(box.left_mm));
    }
    return fmt::format("<path d=\"{}\" {}/>", path, fill(b.ink));
  }
  std::string operator()(const Polyline& p) const {
    return fmt::format("<{} points=\"{}\" {}/>", p.closed ? "polygon" : "polyline",
                       points_of(p.points), stroke(p.ink, p.width_mm, p.dash_mm));
  }
  std::string operator()(const CircleOutline& c) const {
    return circle(c.centre, c.radius_mm, stroke(c.ink, c.width_mm, c.dash_mm));
  }
  std::string operator()(const Text& t) const {
    const char* anchor = t.align == Align::left     ? "start"
                         : t.align == Align::centre ? "middle"
                                                    : "end";
    std::string attributes = fmt::format("x=\"{}\" y=\"{}\" font-size=\"{}\" text-anchor=\"{}\"",
                                         number(t.at.x), number(t.at.y), number(t.size_mm), anchor);
    if (t.bold) attributes += " font-weight=\"bold\"";
    if (t.angle_deg != 0) {
      attributes += fmt::format(" transform=\"rotate({} {} {})\"", number(t.angle_deg),
                                number(t.at.x), number(t.at.y));
    }
    return fmt::format("<text {} {}>{}</text>", attributes, fill(t.ink), html_text(t.utf8));
  }
};

const char* class_of(Role role) {
  switch (role) {
    case Role::frame:
      return "role-frame";
    case Role::before:
      return "role-before";
    case Role::after:
      return "role-after";
    case Role::mark:
      return "role-mark";
  }
  return "";
}

std::string scale_attributes(const PlotScale& s) {
  return fmt::format(" data-x0=\"{}\" data-per-x=\"{}\" data-y0=\"{}\" data-per-y=\"{}\"",
                     format_number(s.x0_mm, 6), format_number(s.mm_per_x, 6),
                     format_number(s.y0_mm, 6), format_number(s.mm_per_y, 6));
}

}  // namespace

std::string svg_of(const Figure& f) {
  std::string text = fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"{} {} {} {}\" role=\"img\" "
      "aria-labelledby=\"{}-title {}-alt\"{}",
      number(-f.width_mm / 2), number(-f.height_mm / 2), number(f.width_mm), number(f.height_mm),
      f.id, f.id, f.scale ? scale_attributes(*f.scale) : "");
  if (f.life_size) {
    text += fmt::format(" class=\"life-size\" style=\"width:{}mm\"", number(f.width_mm));
  }
  text += fmt::format(">\n<title id=\"{}-title\">{}</title>\n<desc id=\"{}-alt\">{}</desc>\n", f.id,
                      html_text(f.title), f.id, html_text(f.alt));
  for (const Layer& layer : f.layers) {
    text += fmt::format("<g class=\"{}\">\n", class_of(layer.role));
    for (const Shape& shape : layer.shapes) text += std::visit(SvgWriter{}, shape) + "\n";
    text += "</g>\n";
  }
  return text + "</svg>\n";
}

}  // namespace versolay
