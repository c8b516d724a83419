#include "imposition/layer.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/numbers.h"

namespace versolay {
namespace {

std::string escaped(const std::string& text) {
  std::string out;
  for (char c : text) {
    out += c == '&' ? "&amp;" : c == '<' ? "&lt;" : c == '"' ? "&quot;" : std::string(1, c);
  }
  return out;
}

std::string svg_mm(double value) { return format_number(value, 4); }

std::string path_of(const LayerLine& line) {
  std::string d;
  for (const Point<PageMm>& p : line.points) {
    d += (d.empty() ? "M" : " L") + svg_mm(p.x) + " " + svg_mm(p.y);
  }
  return d + (line.closed ? " Z" : "");
}

/// One straight piece of a line, in pixels, beginning `along_px` from the start of the line.
struct Stroke {
  Eigen::Vector2d from;
  Eigen::Vector2d to;
  double along_px = 0.0;
};

std::vector<Stroke> strokes_of(const LayerLine& line, const Paper& paper, double ppi) {
  const auto px = [&](const Point<PageMm>& p) -> Eigen::Vector2d {
    return {artwork_px_from_mm(p.x + paper.width_mm / 2, ppi),
            artwork_px_from_mm(p.y + paper.height_mm / 2, ppi)};
  };
  std::vector<Stroke> strokes;
  double along = 0.0;
  const std::size_t count = line.points.size() - (line.closed ? 0 : 1);
  for (std::size_t i = 0; i < count; ++i) {
    const Eigen::Vector2d a = px(line.points[i]);
    const Eigen::Vector2d b = px(line.points[(i + 1) % line.points.size()]);
    strokes.push_back({a, b, along});
    along += (b - a).norm();
  }
  return strokes;
}

void paint(RgbaImage& image, const Stroke& stroke, const LayerLine& line, double ppi) {
  const double half = std::max(0.5, artwork_px_from_mm(line.width_mm, ppi) / 2);
  const double dash = artwork_px_from_mm(line.dash_mm, ppi);
  const Eigen::Vector2d low = stroke.from.cwiseMin(stroke.to).array() - half - 1;
  const Eigen::Vector2d high = stroke.from.cwiseMax(stroke.to).array() + half + 1;
  const double length = (stroke.to - stroke.from).norm();
  if (length <= 0) return;
  const Eigen::Vector2d way = (stroke.to - stroke.from) / length;
  const auto clamped = [](double v, int size) {
    return std::clamp(static_cast<int>(std::floor(v)), 0, size);
  };
  for (int y = clamped(low.y(), image.height_px); y < clamped(high.y() + 1, image.height_px); ++y) {
    for (int x = clamped(low.x(), image.width_px); x < clamped(high.x() + 1, image.width_px); ++x) {
      const Eigen::Vector2d p = Eigen::Vector2d(x + 0.5, y + 0.5) - stroke.from;
      const double along = std::clamp(p.dot(way), 0.0, length);
      if (dash > 0 && std::fmod((stroke.along_px + along) / dash, 2.0) >= 1.0) continue;
      const double cover = std::clamp(half + 0.5 - (p - along * way).norm(), 0.0, 1.0);
      if (cover <= 0) continue;
      std::uint8_t* pixel = image.at(x, y);
      const auto alpha = static_cast<std::uint8_t>(std::lround(255 * cover));
      if (alpha < pixel[3]) continue;
      std::copy(line.rgb.begin(), line.rgb.end(), pixel);
      pixel[3] = alpha;
    }
  }
}

}  // namespace

std::string svg_of(const GuidesLayer& layer, double ppi) {
  const Paper& paper = layer.paper;
  std::string svg = fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{}\" height=\"{}\" viewBox=\"{} {} {} "
      "{}\">\n",
      std::lround(artwork_px_from_mm(paper.width_mm, ppi)),
      std::lround(artwork_px_from_mm(paper.height_mm, ppi)), svg_mm(-paper.width_mm / 2),
      svg_mm(-paper.height_mm / 2), svg_mm(paper.width_mm), svg_mm(paper.height_mm));
  std::string open_group;
  for (const LayerLine& line : layer.lines) {
    if (line.name != open_group) {
      if (!open_group.empty()) svg += "</g>\n";
      svg += "<g id=\"" + escaped(line.name) + "\">\n";
      open_group = line.name;
    }
    svg += fmt::format(
        "<path d=\"{}\" fill=\"none\" stroke=\"#{:02x}{:02x}{:02x}\" stroke-width=\"{}\"{}/>\n",
        path_of(line), line.rgb[0], line.rgb[1], line.rgb[2], svg_mm(line.width_mm),
        line.dash_mm > 0 ? " stroke-dasharray=\"" + svg_mm(line.dash_mm) + "\"" : "");
  }
  if (!open_group.empty()) svg += "</g>\n";
  for (const Text& note : layer.notes) {
    svg += fmt::format(
        "<text x=\"{}\" y=\"{}\" font-family=\"sans-serif\" font-size=\"{}\">{}</text>\n",
        svg_mm(note.at.x), svg_mm(note.at.y), svg_mm(note.size_mm), escaped(note.utf8));
  }
  return svg + "</svg>\n";
}

RgbaImage picture_of(const GuidesLayer& layer, double ppi) {
  RgbaImage image(static_cast<int>(std::lround(artwork_px_from_mm(layer.paper.width_mm, ppi))),
                  static_cast<int>(std::lround(artwork_px_from_mm(layer.paper.height_mm, ppi))));
  for (const LayerLine& line : layer.lines) {
    for (const Stroke& stroke : strokes_of(line, layer.paper, ppi)) {
      paint(image, stroke, line, ppi);
    }
  }
  return image;
}

}  // namespace versolay
