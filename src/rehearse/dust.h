// Dust and hairs on the scanner's glass.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "rehearse/bed.h"

namespace versolay::rehearse {

class Dust {
 public:
  Dust(int count, const Bed& bed, Random random);
  /// Takes away light from a row of `width` pixels.
  void darken(int row, int width, float* light) const;

 private:
  /// A line with round ends; a speck is a short one.
  struct Speck {
    Eigen::Vector2d centre_px;
    Eigen::Vector2d along;  // unit
    double half_length_px;
    double half_width_px;
    float passes;  // share of light
  };
  std::vector<Speck> specks_;
};

}  // namespace versolay::rehearse
