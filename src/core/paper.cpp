#include "versolay/paper.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>

#include "core/findings.h"
#include "core/numbers.h"
#include "versolay/result.h"

namespace versolay {
namespace {

struct NamedSize {
  std::string_view name;
  double width_mm;
  double height_mm;
};

constexpr std::array<NamedSize, 4> kNamedSizes = {{
    {"a4", 210.0, 297.0},
    {"a3", 297.0, 420.0},
    {"letter", 215.9, 279.4},   // 8.5 x 11 inch
    {"tabloid", 279.4, 431.8},  // 11 x 17 inch
}};

constexpr double kSmallestPaperMm = 100.0;
constexpr double kLargestMm = 600.0;

Error not_a_paper(std::string_view text) {
  return Error("paper", findings::not_a_paper(std::string(text)));
}

}  // namespace

Paper parse_paper(std::string_view text) {
  std::string name(text);
  std::transform(name.begin(), name.end(), name.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  for (const NamedSize& s : kNamedSizes) {
    if (name == s.name) return {name, s.width_mm, s.height_mm};
  }
  if (!name.ends_with("mm")) throw not_a_paper(text);
  const auto size = parse_pair(std::string_view(name).substr(0, name.size() - 2));
  if (!size) throw not_a_paper(text);
  const auto [width, height] = *size;
  if (!(width >= kSmallestPaperMm && width <= kLargestMm && height >= kSmallestPaperMm &&
        height <= kLargestMm)) {
    throw not_a_paper(text);
  }
  return paper_of_size(width, height);
}

Paper paper_of_size(double width_mm, double height_mm) {
  for (const NamedSize& s : kNamedSizes) {
    if (std::abs(s.width_mm - width_mm) <= 0.01 && std::abs(s.height_mm - height_mm) <= 0.01) {
      return {std::string(s.name), s.width_mm, s.height_mm};
    }
  }
  return {format_number(width_mm, 2) + "x" + format_number(height_mm, 2) + "mm", width_mm,
          height_mm};
}

std::string_view to_string(Turn turn) {
  return turn == Turn::long_edge ? "long-edge" : "short-edge";
}

std::optional<Turn> turn_from(std::string_view text) {
  for (Turn t : {Turn::long_edge, Turn::short_edge}) {
    if (text == to_string(t)) return t;
  }
  return std::nullopt;
}

TurnAxis turn_axis(Turn turn, const Paper& paper) {
  const bool long_edge_is_vertical = paper.height_mm >= paper.width_mm;
  return (turn == Turn::long_edge) == long_edge_is_vertical ? TurnAxis::vertical
                                                            : TurnAxis::horizontal;
}

namespace {

Eigen::Matrix2d mirror(TurnAxis axis) {
  return axis == TurnAxis::vertical ? Eigen::Vector2d(-1, 1).asDiagonal().toDenseMatrix()
                                    : Eigen::Vector2d(1, -1).asDiagonal().toDenseMatrix();
}

}  // namespace

Affine<RectoMm, VersoMm> recto_from_verso(TurnAxis axis) {
  return {mirror(axis), Eigen::Vector2d::Zero()};
}

Affine<VersoMm, RectoMm> verso_from_recto(TurnAxis axis) {
  return {mirror(axis), Eigen::Vector2d::Zero()};
}

}  // namespace versolay
