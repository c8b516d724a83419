#include "measure/overlay.h"

#include <fmt/format.h>

#include <cmath>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

#include "measure/reduce.h"
#include "target/geometry.h"

namespace versolay {
namespace {

constexpr int kLongSidePx = 1600;
constexpr double kMagnification = 150.0;
constexpr double kTextScale = 0.55;
constexpr int kLineHeightPx = 22;

// Blue, green, red, as OpenCV wants them; dark enough for print in black.
const cv::Scalar kUsed(120, 110, 0);
const cv::Scalar kLeftOut(0, 0, 200);
const cv::Scalar kHole(160, 60, 0);
const cv::Scalar kMissed(0, 90, 220);
const cv::Scalar kWords(0, 0, 0);

std::vector<std::string> wrapped(const std::string& text, std::size_t width) {
  std::vector<std::string> lines = {""};
  std::size_t start = 0;
  while (start < text.size()) {
    const std::size_t end = std::min(text.find(' ', start), text.size());
    const std::string word = text.substr(start, end - start);
    if (!lines.back().empty() && lines.back().size() + word.size() + 1 > width) {
      lines.emplace_back();
    }
    lines.back() += (lines.back().empty() ? "" : " ") + word;
    start = end + 1;
  }
  return lines;
}

/// The picture, turned upright by quarter turns, and the way into it from scan pixels.
class Canvas {
 public:
  Canvas(const Scan& scan, int quarter_turns) : quarter_turns_(quarter_turns) {
    const GreyImage& grey = scan.grey;
    const int factor = (std::max(grey.width, grey.height) + kLongSidePx - 1) / kLongSidePx;
    factor_ = std::max(1, factor);
    GreyImage small = reduce_by_area(grey, {factor_, factor_});
    width_ = small.width;
    height_ = small.height;
    cv::Mat upright(small.height, small.width, CV_8UC1, small.pixels.data());
    // Paler, so that the annotations stand out.
    upright.convertTo(upright, CV_8UC1, 0.55, 255 * 0.45);
    constexpr int kTurns[] = {-1, cv::ROTATE_90_CLOCKWISE, cv::ROTATE_180,
                              cv::ROTATE_90_COUNTERCLOCKWISE};
    if (quarter_turns_ != 0) cv::rotate(upright, upright, kTurns[quarter_turns_]);
    cv::cvtColor(upright, image_, cv::COLOR_GRAY2BGR);
  }

  cv::Point2d at(const Point<ScanPx>& p) const {
    const double x = p.x / factor_;
    const double y = p.y / factor_;
    switch (quarter_turns_) {
      case 1:
        return {height_ - y, x};
      case 2:
        return {width_ - x, height_ - y};
      case 3:
        return {y, width_ - x};
      default:
        return {x, y};
    }
  }

  void circle(const Point<ScanPx>& p, double radius_px, const cv::Scalar& colour) {
    cv::circle(image_, at(p), static_cast<int>(std::lround(radius_px / factor_)), colour, 2,
               cv::LINE_AA);
  }
  void cross(const Point<ScanPx>& p, const cv::Scalar& colour) {
    cv::drawMarker(image_, at(p), colour, cv::MARKER_TILTED_CROSS, 22, 2, cv::LINE_AA);
  }
  void line(const Point<ScanPx>& a, const Point<ScanPx>& b, const cv::Scalar& colour) {
    cv::line(image_, at(a), at(b), colour, 2, cv::LINE_AA);
  }
  void arrow(const Point<ScanPx>& from, const Eigen::Vector2d& by_px, const cv::Scalar& colour) {
    const auto to = Point<ScanPx>::from(from.vec() + by_px);
    cv::arrowedLine(image_, at(from), at(to), colour, 2, cv::LINE_AA, 0, 0.3);
  }
  void box(const Point<ScanPx>& p, double half_px, const cv::Scalar& colour) {
    const cv::Point2d c = at(p);
    const double half = half_px / factor_;
    cv::rectangle(image_, cv::Point2d(c.x - half, c.y - half), cv::Point2d(c.x + half, c.y + half),
                  colour, 2, cv::LINE_AA);
  }
  void name(const Point<ScanPx>& p, const std::string& words, const cv::Scalar& colour) {
    const cv::Point2d c = at(p);
    cv::putText(image_, words, cv::Point2d(c.x + 5, c.y - 5), cv::FONT_HERSHEY_SIMPLEX, kTextScale,
                colour, 1, cv::LINE_AA);
  }

  std::string png_with_legend(const std::vector<std::string>& paragraphs) const {
    std::vector<std::string> lines;
    for (const std::string& paragraph : paragraphs) {
      for (std::string& line : wrapped(paragraph, static_cast<std::size_t>(image_.cols / 10))) {
        lines.push_back(std::move(line));
      }
    }
    const int top = kLineHeightPx * static_cast<int>(lines.size()) + 10;
    cv::Mat framed(image_.rows + top, image_.cols, CV_8UC3, cv::Scalar(255, 255, 255));
    image_.copyTo(framed(cv::Rect(0, top, image_.cols, image_.rows)));
    for (std::size_t i = 0; i < lines.size(); ++i) {
      cv::putText(framed, lines[i], cv::Point(8, kLineHeightPx * static_cast<int>(i + 1)),
                  cv::FONT_HERSHEY_SIMPLEX, kTextScale, kWords, 1, cv::LINE_AA);
    }
    std::vector<std::uint8_t> bytes;
    if (!cv::imencode(".png", framed, bytes)) {
      throw Error("overlay", "the annotated picture could not be made");
    }
    return {bytes.begin(), bytes.end()};
  }

 private:
  int quarter_turns_;  // clockwise, of the picture
  int factor_ = 1;
  int width_ = 0;
  int height_ = 0;
  cv::Mat image_;
};

int quarter_turns_to_upright(const Affine<PageMm, ScanPx>& page_from_scan) {
  const Eigen::Matrix2d& m = page_from_scan.linear();
  const double angle = std::atan2(m(1, 0) - m(0, 1), m(0, 0) + m(1, 1));
  return (static_cast<int>(std::lround(angle / (M_PI / 2))) + 4) % 4;
}

std::string why(const SideMiss& miss) {
  if (const auto* hole = std::get_if<HoleMiss>(&miss.miss)) {
    switch (*hole) {
      case HoleMiss::outside:
        return "not shown";
      case HoleMiss::none_made:
        return "none";
      case HoleMiss::poor_contrast:
        return "pale";
      case HoleMiss::cut_off:
        return "outside";
      case HoleMiss::wrong_size:
        return "size";
      case HoleMiss::ragged:
        return "ragged";
    }
  }
  switch (std::get<EdgeMiss>(miss.miss)) {
    case EdgeMiss::outside:
      return "not shown";
    case EdgeMiss::cut_off:
      return "cut off";
    case EdgeMiss::poor_contrast:
      return "pale";
    case EdgeMiss::ragged:
      return "ragged";
  }
  return "";
}

void draw_features(Canvas& canvas, const SideReading& side, double px_per_mm) {
  for (const SideFeature& f : side.features) {
    if (f.kind == FeatureKind::edge) {
      const Eigen::Vector2d along =
          side.page_from_scan.inverse().linear() * Eigen::Vector2d(-f.normal.y(), f.normal.x()) * 4;
      canvas.line(Point<ScanPx>::from(f.seen.vec() - along),
                  Point<ScanPx>::from(f.seen.vec() + along), kHole);
    } else {
      canvas.circle(f.seen, f.radius_mm * px_per_mm, kHole);
      canvas.name(Point<ScanPx>{f.seen.x, f.seen.y}, f.id, kHole);
    }
  }
}

bool is_outside(const SideMiss& miss) {
  const auto* hole = std::get_if<HoleMiss>(&miss.miss);
  return hole ? *hole == HoleMiss::outside : std::get<EdgeMiss>(miss.miss) == EdgeMiss::outside;
}

void draw_misses(Canvas& canvas, const SideReading& side, double px_per_mm) {
  const TargetGeometry geometry = target_geometry(side.identity.paper, side.identity.turn);
  const auto scan_from_page = side.page_from_scan.inverse();
  const bool recto = side.identity.side == Side::recto;
  const auto draw = [&](const SideMiss& miss, const std::string& id, const Point<RectoMm>& at,
                        double half_mm) {
    if (miss.id != id || is_outside(miss)) return;
    const auto page =
        recto ? relabel<PageMm>(at) : relabel<PageMm>(verso_from_recto(geometry.axis())(at));
    canvas.box(scan_from_page(page), half_mm * px_per_mm, kMissed);
    canvas.name(scan_from_page(page), id + " " + why(miss), kMissed);
  };
  for (const SideMiss& miss : side.misses) {
    for (const HolePlace& place : geometry.holes) draw(miss, place.id, place.at, 4.0);
    for (const EdgePlace& place : geometry.edges) {
      draw(miss, place.id,
           Point<RectoMm>::from(place.ring.vec() + place.inset_mm * 0.6 * place.outward), 2.0);
    }
  }
}

}  // namespace

std::string overlay_png(const Scan& scan, const Result<SideReading>& reading) {
  if (!reading) {
    return Canvas(scan, 0).png_with_legend(
        {scan.name() + ": not used. " + reading.refusal().message});
  }
  const SideReading& side = reading.value();
  Canvas canvas(scan, quarter_turns_to_upright(side.page_from_scan));
  const double px_per_mm = std::sqrt(1.0 / std::abs(side.page_from_scan.linear().determinant()));
  const auto scan_from_page = side.page_from_scan.inverse();
  for (const RingUse& ring : side.rings) {
    if (!ring.used) {
      canvas.cross(ring.seen, kLeftOut);
      continue;
    }
    canvas.circle(ring.seen, 3.0 * px_per_mm, kUsed);
    canvas.arrow(ring.seen, kMagnification * (ring.seen.vec() - scan_from_page(ring.page).vec()),
                 kUsed);
  }
  draw_features(canvas, side, px_per_mm);
  draw_misses(canvas, side, px_per_mm);
  std::vector<std::string> lines = {
      fmt::format("{}: sheet {}, {}, run {}", scan.name(), side.identity.sheet,
                  side.identity.side == Side::recto ? "FRONT" : "BACK", side.identity.run),
      fmt::format("{} of {} rings used (circles; crosses: left out). Arrows: what the scanner does "
                  "to the picture, {} x enlarged, {:.3f} mm rms.",
                  side.rings_found, side.rings_expected, static_cast<int>(kMagnification),
                  side.page_rms_mm),
      "Named circles: holes. Bars: edges of the paper. Boxes: could not be read, and why."};
  return canvas.png_with_legend(lines);
}

}  // namespace versolay
