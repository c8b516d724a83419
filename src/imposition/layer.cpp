#include "imposition/layer.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "artwork/lettering.h"
#include "core/expect.h"
#include "core/numbers.h"

namespace versolay {
namespace {

using LayerColour = std::array<std::uint8_t, 3>;

constexpr LayerColour kWords{0, 0, 0};
constexpr LayerColour kWordsHalo{255, 255, 255};
constexpr double kWordsHaloMm = 0.25;
constexpr double kLeastLinePx = 1.0;
constexpr double kLeastHaloPx = 0.7;

std::string escaped(const std::string& text) {
  std::string out;
  for (char c : text) {
    out += c == '&' ? "&amp;" : c == '<' ? "&lt;" : c == '"' ? "&quot;" : std::string(1, c);
  }
  return out;
}

std::string svg_mm(double value) { return format_number(value, 4); }

std::string svg_colour(const LayerColour& c) {
  return fmt::format("#{:02x}{:02x}{:02x}", c[0], c[1], c[2]);
}

/// Straight, in page millimetres.
struct Piece {
  Eigen::Vector2d from;
  Eigen::Vector2d to;
  double length_mm() const { return (to - from).norm(); }
};

std::vector<Piece> pieces_of(const LayerLine& line) {
  std::vector<Piece> pieces;
  const std::size_t count = line.points.size() - (line.closed ? 0 : 1);
  for (std::size_t i = 0; i < count; ++i) {
    const Piece piece{line.points[i].vec(), line.points[(i + 1) % line.points.size()].vec()};
    if (piece.length_mm() > 0) pieces.push_back(piece);
  }
  return pieces;
}

/// Dash and gap of a piece of this length: whole periods, from the middle of a dash to the middle
/// of one.
struct Dashes {
  double dash_mm = 0.0;
  double gap_mm = 0.0;
  double period_mm() const { return dash_mm + gap_mm; }
};

Dashes dashes_of(const LineStyle& style, double length_mm) {
  if (style.dash_mm <= 0) return {};
  const double period = style.dash_mm + style.gap_mm;
  const double stretch = length_mm / (std::max(1.0, std::round(length_mm / period)) * period);
  return {stretch * style.dash_mm, stretch * style.gap_mm};
}

std::string svg_path(const std::string& d, const LineStyle& style, const Dashes& dashes,
                     bool halo) {
  const std::string dashed =
      dashes.dash_mm > 0
          ? fmt::format(" stroke-dasharray=\"{} {}\" stroke-dashoffset=\"{}\"",
                        svg_mm(dashes.dash_mm), svg_mm(dashes.gap_mm), svg_mm(dashes.dash_mm / 2))
          : std::string();
  return fmt::format("<path d=\"{}\" fill=\"none\" stroke=\"{}\" stroke-width=\"{}\"{}/>\n", d,
                     svg_colour(halo ? style.halo : style.rgb),
                     svg_mm(style.width_mm + (halo ? 2 * kHaloMm : 0.0)), dashed);
}

std::string svg_line(const LayerLine& line, bool halo) {
  const auto place = [](const Eigen::Vector2d& p) { return svg_mm(p.x()) + " " + svg_mm(p.y()); };
  if (line.style.dash_mm > 0) {
    std::string paths;
    for (const Piece& piece : pieces_of(line)) {
      paths += svg_path("M" + place(piece.from) + " L" + place(piece.to), line.style,
                        dashes_of(line.style, piece.length_mm()), halo);
    }
    return paths;
  }
  std::string d;
  for (const Point<PageMm>& p : line.points) d += (d.empty() ? "M" : " L") + place(p.vec());
  return svg_path(d + (line.closed ? " Z" : ""), line.style, {}, halo);
}

std::string svg_note(const Text& note) {
  const std::string turned = note.angle_deg == 0
                                 ? std::string()
                                 : fmt::format(" transform=\"rotate({} {} {})\"", note.angle_deg,
                                               svg_mm(note.at.x), svg_mm(note.at.y));
  return fmt::format(
      "<text x=\"{}\" y=\"{}\" font-family=\"DejaVu Sans, sans-serif\" font-size=\"{}\" "
      "fill=\"{}\" stroke=\"{}\" stroke-width=\"{}\" paint-order=\"stroke\"{}>{}</text>\n",
      svg_mm(note.at.x), svg_mm(note.at.y), svg_mm(note.size_mm), svg_colour(kWords),
      svg_colour(kWordsHalo), svg_mm(2 * kWordsHaloMm), turned, escaped(note.utf8));
}

/// Paints on the pixels of a page.
class Painter {
 public:
  Painter(RgbaImage& image, const Paper& paper, double ppi)
      : image_(image), paper_(paper), ppi_(ppi) {}

  void draw(const LayerLine& line, bool halo) {
    const double width = std::max(kLeastLinePx, px(line.style.width_mm));
    const double beside = halo ? std::max(kLeastHaloPx, px(kHaloMm)) : 0.0;
    for (const Piece& piece : pieces_of(line)) {
      draw(piece, width / 2 + beside, dashes_of(line.style, piece.length_mm()),
           halo ? line.style.halo : line.style.rgb);
    }
  }

  void draw(const Text& note, const Lettering& lettering, bool halo) {
    expect(note.align == Align::left && (note.angle_deg == 0 || note.angle_deg == 90));
    const LetteredLine words = lettering.line(note.utf8, px(note.size_mm));
    const Eigen::Vector2d at = px(note.at.vec());
    const int x0 = static_cast<int>(std::lround(at.x()));
    const int y0 = static_cast<int>(std::lround(at.y()));
    const int reach = halo ? static_cast<int>(std::ceil(px(kWordsHaloMm))) : 0;
    for (int y = 0; y < words.height_px; ++y) {
      for (int x = 0; x < words.width_px; ++x) {
        if (words.at(x, y) == 0) continue;
        const int u = words.left_px + x;
        const int v = words.top_px + y;
        const int on_x = note.angle_deg == 0 ? x0 + u : x0 - v - 1;
        const int on_y = note.angle_deg == 0 ? y0 + v : y0 + u;
        surround(on_x, on_y, reach, words.at(x, y) / 255.0, halo ? kWordsHalo : kWords);
      }
    }
  }

 private:
  double px(double mm) const { return artwork_px_from_mm(mm, ppi_); }
  Eigen::Vector2d px(const Eigen::Vector2d& mm) const {
    return {px(mm.x() + paper_.width_mm / 2), px(mm.y() + paper_.height_mm / 2)};
  }

  void draw(const Piece& piece, double half, const Dashes& dashes, const LayerColour& colour) {
    const Eigen::Vector2d from = px(piece.from);
    const Eigen::Vector2d to = px(piece.to);
    const double length = (to - from).norm();
    const Eigen::Vector2d way = (to - from) / length;
    const double dash = px(dashes.dash_mm);
    const double period = px(dashes.period_mm());
    const Eigen::Vector2d low = from.cwiseMin(to).array() - half - 1;
    const Eigen::Vector2d high = from.cwiseMax(to).array() + half + 2;
    for (int y = clamped(low.y(), image_.height_px); y < clamped(high.y(), image_.height_px); ++y) {
      for (int x = clamped(low.x(), image_.width_px); x < clamped(high.x(), image_.width_px); ++x) {
        const Eigen::Vector2d p = Eigen::Vector2d(x + 0.5, y + 0.5) - from;
        const double along = std::clamp(p.dot(way), 0.0, length);
        if (period > 0 && std::abs(std::remainder(along, period)) > dash / 2) continue;
        const double cover = std::clamp(half + 0.5 - (p - along * way).norm(), 0.0, 1.0);
        if (cover > 0) lay_over(x, y, cover, colour);
      }
    }
  }

  static int clamped(double v, int size) {
    return std::clamp(static_cast<int>(std::floor(v)), 0, size);
  }

  void surround(int x, int y, int reach, double cover, const LayerColour& colour) {
    for (int dy = -reach; dy <= reach; ++dy) {
      for (int dx = -reach; dx <= reach; ++dx) {
        const bool inside = x + dx >= 0 && x + dx < image_.width_px && y + dy >= 0 &&
                            y + dy < image_.height_px && dx * dx + dy * dy <= reach * reach;
        if (inside) lay_over(x + dx, y + dy, cover, colour);
      }
    }
  }

  /// Source  "Compositing digital images", Porter and Duff 1984: "over", not multiplied by alpha.
  void lay_over(int x, int y, double alpha, const LayerColour& colour) {
    std::uint8_t* pixel = image_.at(x, y);
    const double below = pixel[3] / 255.0 * (1 - alpha);
    const double sum = alpha + below;
    for (std::size_t c = 0; c < 3; ++c) {
      pixel[c] =
          static_cast<std::uint8_t>(std::lround((alpha * colour[c] + below * pixel[c]) / sum));
    }
    pixel[3] = static_cast<std::uint8_t>(std::lround(255 * sum));
  }

  RgbaImage& image_;
  const Paper& paper_;
  double ppi_;
};

}  // namespace

std::string svg_of(const GuidesLayer& layer) {
  const Paper& paper = layer.paper;
  const std::string width = svg_mm(paper.width_mm);
  const std::string height = svg_mm(paper.height_mm);
  std::string svg = fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{}mm\" height=\"{}mm\" viewBox=\"{} {} {} "
      "{}\">\n",
      width, height, svg_mm(-paper.width_mm / 2), svg_mm(-paper.height_mm / 2), width, height);
  std::string open_group;
  for (const LayerLine& line : layer.lines) {
    if (line.style.name != open_group) {
      if (!open_group.empty()) svg += "</g>\n";
      svg += "<g id=\"" + escaped(line.style.name) + "\">\n";
      open_group = line.style.name;
    }
    svg += svg_line(line, true) + svg_line(line, false);
  }
  if (!open_group.empty()) svg += "</g>\n";
  if (!layer.notes.empty()) svg += "<g id=\"legend\">\n";
  for (const Text& note : layer.notes) svg += svg_note(note);
  if (!layer.notes.empty()) svg += "</g>\n";
  return svg + "</svg>\n";
}

RgbaImage picture_of(const GuidesLayer& layer, double ppi) {
  RgbaImage image(static_cast<int>(std::lround(artwork_px_from_mm(layer.paper.width_mm, ppi))),
                  static_cast<int>(std::lround(artwork_px_from_mm(layer.paper.height_mm, ppi))));
  Painter painter(image, layer.paper, ppi);
  // All halos first: none lies over a line beside it.
  for (const bool halo : {true, false}) {
    for (const LayerLine& line : layer.lines) painter.draw(line, halo);
  }
  if (layer.notes.empty()) return image;
  const Lettering lettering;
  for (const bool halo : {true, false}) {
    for (const Text& note : layer.notes) painter.draw(note, lettering, halo);
  }
  return image;
}

}  // namespace versolay
