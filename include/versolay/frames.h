// Frames, and the transforms between them. The only place where the conventions are defined.
//
// Every side of a sheet is described as one looks AT THAT SIDE, page upright:
//
//            -h/2
//      +------------+          x to the right, y DOWN, millimetres,
//      |            |          origin at the centre of the page,
//  -w/2|     +--> x | +w/2     rotation positive clockwise as seen.
//      |     |      |
//      |     v y    |
//      +------------+
//            +h/2
//
// A scan is an image: pixels, origin at the upper-left CORNER of the image, so the centre of the
// first pixel is at (0.5, 0.5).
//
// A transform is named target_from_source and typed the same way, Affine<Target, Source>;
// composition reads by cancelling the inner frames: a_from_b * b_from_c = a_from_c.
#pragma once

#include <Eigen/Core>
#include <Eigen/LU>
#include <algorithm>
#include <cmath>

namespace versolay {

struct PageMm {};   // a side of the printed page, whichever it is
struct RectoMm {};  // the front page
struct VersoMm {};  // the back page
struct ScanPx {};   // an image of a sheet

enum class Side { recto, verso };

template <class Frame>
struct Point {
  double x = 0.0;
  double y = 0.0;

  Eigen::Vector2d vec() const { return {x, y}; }
  static Point from(const Eigen::Vector2d& v) { return {v.x(), v.y()}; }
  bool operator==(const Point&) const = default;
};

/// Upright rectangle; top < bottom, because y points down.
template <class Frame>
struct Rect {
  double left_mm = 0.0;
  double top_mm = 0.0;
  double right_mm = 0.0;
  double bottom_mm = 0.0;

  double width_mm() const { return right_mm - left_mm; }
  double height_mm() const { return bottom_mm - top_mm; }
  Point<Frame> centre() const { return {(left_mm + right_mm) / 2, (top_mm + bottom_mm) / 2}; }
  /// By so much on both sides; less than 0: shrunk.
  Rect grown(double x_mm, double y_mm) const {
    return {left_mm - x_mm, top_mm - y_mm, right_mm + x_mm, bottom_mm + y_mm};
  }
  Rect grown(double mm) const { return grown(mm, mm); }
  Rect moved(const Eigen::Vector2d& by_mm) const {
    return {left_mm + by_mm.x(), top_mm + by_mm.y(), right_mm + by_mm.x(), bottom_mm + by_mm.y()};
  }
  /// What both cover; left > right, or top > bottom, where that is nothing.
  Rect overlap(const Rect& other) const {
    return {std::max(left_mm, other.left_mm), std::max(top_mm, other.top_mm),
            std::min(right_mm, other.right_mm), std::min(bottom_mm, other.bottom_mm)};
  }
  bool operator==(const Rect&) const = default;
};

/// Re-labels a point whose side is known at run time only. The numbers do not change.
template <class To, class From>
Point<To> relabel(const Point<From>& p) {
  return {p.x, p.y};
}

/// x_target = linear * x_source + offset. Units are those of the two frames.
template <class Target, class Source>
class Affine {
 public:
  Affine() = default;
  Affine(const Eigen::Matrix2d& linear, const Eigen::Vector2d& offset)
      : linear_(linear), offset_(offset) {}

  const Eigen::Matrix2d& linear() const { return linear_; }
  const Eigen::Vector2d& offset() const { return offset_; }

  Point<Target> operator()(const Point<Source>& p) const {
    return Point<Target>::from(linear_ * p.vec() + offset_);
  }
  /// Precondition: the linear part is invertible.
  Affine<Source, Target> inverse() const {
    const Eigen::Matrix2d inverse_linear = linear_.inverse();
    return {inverse_linear, -(inverse_linear * offset_)};
  }

 private:
  Eigen::Matrix2d linear_ = Eigen::Matrix2d::Identity();
  Eigen::Vector2d offset_ = Eigen::Vector2d::Zero();
};

template <class A, class B, class C>
Affine<A, C> operator*(const Affine<A, B>& a_from_b, const Affine<B, C>& b_from_c) {
  return {a_from_b.linear() * b_from_c.linear(),
          a_from_b.linear() * b_from_c.offset() + a_from_b.offset()};
}

template <class To, class From, class T, class S>
Affine<To, From> relabel_affine(const Affine<T, S>& a) {
  return {a.linear(), a.offset()};
}

}  // namespace versolay
