// Places seen by the pixels of a picture, ready for use.
#pragma once

#include <vector>

#include "rehearse/bed.h"

namespace versolay::rehearse {

/// An affine map of the places seen by the pixels, as one table over columns and one over rows.
class Tables {
 public:
  /// `target_from_bed` maps true mm on the glass to the wanted frame; `samples` per pixel and axis.
  template <class Target>
  Tables(const Bed& bed, const Affine<Target, BedMm>& target_from_bed, int samples) {
    const auto fill = [&](std::vector<Eigen::Vector2d>& table, int pixels,
                          const Eigen::Vector2d& offset, auto part) {
      table.reserve(static_cast<std::size_t>(pixels) * samples);
      for (int i = 0; i < pixels * samples; ++i) {
        const Bed::Part p = part((i + 0.5) / samples * bed.mm_per_px());
        table.push_back(target_from_bed.linear() * Eigen::Vector2d(p.x, p.y) + offset);
      }
    };
    fill(column_, bed.width_px(), Eigen::Vector2d::Zero(),
         [&](double x) { return bed.column_part(x); });
    fill(row_, bed.height_px(), target_from_bed.offset(),
         [&](double y) { return bed.row_part(y); });
  }
  Eigen::Vector2d at(int column, int row) const {
    return column_[static_cast<std::size_t>(column)] + row_[static_cast<std::size_t>(row)];
  }

 private:
  std::vector<Eigen::Vector2d> column_;
  std::vector<Eigen::Vector2d> row_;
};

}  // namespace versolay::rehearse
