#include "measure/near_marks.h"

#include <algorithm>
#include <cmath>

#include "measure/findings.h"

namespace versolay {
namespace {

constexpr double kNearHoleMm = 16.0;  // the rings of its station
// From memory: rings of a good scan are predicted to 0.01 mm. What these limits find of smeared ink
// and damaged scans: tests/bench/README.md, "Damaged scans".
constexpr double kNearMarksWarnMm = 0.040;
constexpr double kNearMarksFailMm = 0.080;
constexpr int kLeastMarksOfASmear = 3;
constexpr double kNearMarksWarnShare = 0.3;  // of the rings of a station that were left out
constexpr double kNearMarksFailShare = 0.6;

/// What the rings of one station say of themselves.
struct NearMarks {
  int seen = 0;
  int left_out = 0;      // they disagree with all the others
  double rms_mm = 0.0;   // one axis, of those that were kept
  double most_mm = 0.0;  // of all

  bool is_marked() const { return rms_mm > kNearMarksWarnMm || is_share(kNearMarksWarnShare); }
  bool is_useless() const { return rms_mm > kNearMarksFailMm || is_share(kNearMarksFailShare); }

 private:
  /// A ring or two that are left out are dust; several at one place are a smear.
  bool is_share(double share) const {
    return left_out >= kLeastMarksOfASmear && left_out >= share * seen;
  }
};

NearMarks marks_near(const Point<PageMm>& hole, const std::vector<PagePair>& rings,
                     const std::vector<double>& errors_mm, const std::vector<bool>& kept) {
  NearMarks near;
  double squares = 0.0;
  for (std::size_t i = 0; i < rings.size(); ++i) {
    if ((rings[i].page.vec() - hole.vec()).norm() > kNearHoleMm) continue;
    ++near.seen;
    near.left_out += kept[i] ? 0 : 1;
    squares += kept[i] ? errors_mm[i] * errors_mm[i] / 2 : 0.0;
    near.most_mm = std::max(near.most_mm, errors_mm[i]);
  }
  const int used = near.seen - near.left_out;
  if (used > 0) near.rms_mm = std::sqrt(squares / used);
  return near;
}

}  // namespace

Notices check_marks_near_holes(const std::string& scan_name, const std::vector<PagePair>& rings,
                               const ScannerMap& map, const PageView& view, SeenFeatures& found) {
  const std::vector<double> errors_mm = map.prediction_errors_mm(rings);
  Notices warnings;
  const auto is_useless = [&](const SeenFeature& seen) {
    const SideFeature& feature = seen.feature;
    if (feature.kind == FeatureKind::edge) return false;
    const NearMarks near =
        marks_near(view.page_from_scan(feature.seen), rings, errors_mm, map.kept());
    if (!near.is_marked()) return false;
    warnings.push_back(findings::marks_smeared(feature.id, scan_name, Length{near.most_mm}));
    if (near.is_useless()) {
      found.misses.push_back({feature.id, HoleMiss::marks_smeared, feature.kind});
    }
    return near.is_useless();
  };
  std::erase_if(found.features, is_useless);
  return warnings;
}

}  // namespace versolay
