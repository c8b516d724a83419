#include "overlay/overlay_canvas.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "words/translation.h"

namespace versolay {
namespace {

constexpr int kFont = cv::FONT_HERSHEY_SIMPLEX;
constexpr double kHeadlineScale = 0.85;
constexpr double kTextScale = 0.55;
constexpr double kMarkScale = 0.5;
constexpr int kHeadlineHeightPx = 36;
constexpr int kLineHeightPx = 22;
constexpr int kMarginPx = 10;
constexpr int kKeySignPx = 40;
constexpr double kDarkShare = 0.01;   // of a scan: black card and ink
constexpr double kGrainShare = 0.08;  // of the contrast of paper and ink: drawn as plain paper
constexpr int kGreySteps = 12;        // of the scan under the drawing: paper's grain costs bytes

int text_width(const std::string& text, double scale) {
  int baseline = 0;
  return cv::getTextSize(text, kFont, scale, 1, &baseline).width;
}

std::vector<std::string> wrapped(const std::string& text, double scale, int width_px) {
  std::vector<std::string> lines = {""};
  std::size_t start = 0;
  while (start < text.size()) {
    const std::size_t end = std::min(text.find(' ', start), text.size());
    const std::string word = text.substr(start, end - start);
    const std::string longer = lines.back() + (lines.back().empty() ? "" : " ") + word;
    if (!lines.back().empty() && text_width(longer, scale) > width_px) {
      lines.push_back(word);
    } else {
      lines.back() = longer;
    }
    start = end + 1;
  }
  return lines;
}

void draw_diamond(cv::Mat& image, const cv::Point2d& c, double half, const cv::Scalar& colour) {
  const std::vector<cv::Point> corners = {
      cv::Point2d(c.x - half, c.y), cv::Point2d(c.x, c.y - half), cv::Point2d(c.x + half, c.y),
      cv::Point2d(c.x, c.y + half)};
  cv::polylines(image, corners, true, colour, 2, cv::LINE_AA);
}

void draw_sign(cv::Mat& image, Sign sign, const cv::Point& c) {
  switch (sign) {
    case Sign::ring:
      cv::circle(image, c, 8, pen::kRing, 1, cv::LINE_AA);
      cv::line(image, c, c + cv::Point(14, -6), pen::kRing, 1, cv::LINE_AA);
      return;
    case Sign::cross:
      cv::drawMarker(image, c, pen::kTrouble, cv::MARKER_TILTED_CROSS, 16, 2, cv::LINE_AA);
      return;
    case Sign::diamond:
      draw_diamond(image, c, 8, pen::kTrouble);
      return;
    case Sign::hole:
      cv::circle(image, c, 8, pen::kHole, 2, cv::LINE_AA);
      cv::circle(image, c, 4, pen::kHole, 1, cv::LINE_AA);
      cv::arrowedLine(image, c, c + cv::Point(19, -7), pen::kHole, 2, cv::LINE_AA, 0, 0.35);
      return;
    case Sign::edge:
      cv::line(image, c - cv::Point(10, 0), c + cv::Point(10, 0), pen::kHole, 4, cv::LINE_AA);
      return;
    case Sign::box:
      cv::rectangle(image, c - cv::Point(9, 7), c + cv::Point(9, 7), pen::kTrouble, 2, cv::LINE_AA);
      return;
  }
}

/// Grey values of a scan that are drawn as dark and as plain paper; scans are dark or pale as a
/// whole.
struct Tones {
  int dark = 0;
  int white = 255;
};

Tones tones_of(const cv::Mat& scan) {
  std::array<std::size_t, 256> count{};
  for (int y = 0; y < scan.rows; ++y) {
    for (int x = 0; x < scan.cols; ++x) ++count[scan.at<std::uint8_t>(y, x)];
  }
  const auto quantile = [&](double share) {
    std::size_t seen = 0;
    for (int level = 0; level < 256; ++level) {
      seen += count[static_cast<std::size_t>(level)];
      if (static_cast<double>(seen) >= share * static_cast<double>(scan.total())) return level;
    }
    return 255;
  };
  const int dark = quantile(kDarkShare);
  const int middle = (dark + quantile(1.0 - kDarkShare)) / 2;
  const int paper =
      static_cast<int>(std::max_element(count.begin() + middle, count.end()) - count.begin());
  return {dark, std::max(dark + 1, paper - static_cast<int>(kGrainShare * (paper - dark)))};
}

}  // namespace

Canvas::Canvas(const ScanThumbnail& picture, int quarter_turns)
    : quarter_turns_(quarter_turns),
      by_(picture.by),
      width_(picture.grey.width),
      height_(picture.grey.height) {
  const cv::Mat scan(height_, width_, CV_8UC1,
                     const_cast<std::uint8_t*>(picture.grey.pixels.data()));
  // Paler, so that the drawing stands out.
  const Tones tones = tones_of(scan);
  cv::Mat table(1, 256, CV_8UC1);
  for (int i = 0; i < 256; ++i) {
    const int light = std::clamp((i - tones.dark) * 255 / (tones.white - tones.dark), 0, 255);
    const int step = (light * kGreySteps / 256) * 255 / (kGreySteps - 1);
    table.at<std::uint8_t>(i) = static_cast<std::uint8_t>(115 + step * 140 / 255);
  }
  cv::Mat upright;
  cv::LUT(scan, table, upright);
  constexpr int kTurns[] = {-1, cv::ROTATE_90_CLOCKWISE, cv::ROTATE_180,
                            cv::ROTATE_90_COUNTERCLOCKWISE};
  if (quarter_turns_ != 0) cv::rotate(upright, upright, kTurns[quarter_turns_]);
  cv::cvtColor(upright, image_, cv::COLOR_GRAY2BGR);
}

cv::Point2d Canvas::at(const Point<ScanPx>& p) const {
  const double x = p.x / by_.across;
  const double y = p.y / by_.down;
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

double Canvas::px(double scan_px) const { return scan_px / std::sqrt(by_.across * by_.down); }

void Canvas::circle(const Point<ScanPx>& p, double radius_px, const cv::Scalar& colour, int thick) {
  cv::circle(image_, at(p), static_cast<int>(std::lround(px(radius_px))), colour, thick,
             cv::LINE_AA);
}

void Canvas::cross(const Point<ScanPx>& p, const cv::Scalar& colour) {
  cv::drawMarker(image_, at(p), colour, cv::MARKER_TILTED_CROSS, 26, 3, cv::LINE_AA);
}

void Canvas::diamond(const Point<ScanPx>& p, const cv::Scalar& colour) {
  draw_diamond(image_, at(p), 15, colour);
}

void Canvas::box(const Point<ScanPx>& p, double half_px, const cv::Scalar& colour) {
  const cv::Point2d c = at(p);
  const cv::Point2d half(px(half_px), px(half_px));
  cv::rectangle(image_, c - half, c + half, colour, 2, cv::LINE_AA);
}

void Canvas::line(const Point<ScanPx>& a, const Point<ScanPx>& b, const cv::Scalar& colour,
                  int thick) {
  cv::line(image_, at(a), at(b), colour, thick, cv::LINE_AA);
}

void Canvas::arrow(const Point<ScanPx>& from, const Point<ScanPx>& to, const cv::Scalar& colour) {
  cv::arrowedLine(image_, at(from), at(to), colour, 3, cv::LINE_AA, 0, 0.3);
}

void Canvas::words(const Point<ScanPx>& p, const std::string& text, const cv::Scalar& colour) {
  int baseline = 0;
  const cv::Size size = cv::getTextSize(text, kFont, kMarkScale, 1, &baseline);
  const cv::Point2d c = at(p);
  const double left =
      std::clamp(c.x - size.width / 2.0, 4.0, std::max(4.0, image_.cols - size.width - 4.0));
  const double base = std::clamp(c.y, size.height + 4.0, image_.rows - 6.0);
  cv::rectangle(image_, cv::Point2d(left - 3, base - size.height - 3),
                cv::Point2d(left + size.width + 3, base + baseline), pen::kPaper, cv::FILLED);
  cv::putText(image_, text, cv::Point2d(left, base), kFont, kMarkScale, colour, 1, cv::LINE_AA);
}

OverlayPicture Canvas::framed(const std::string& headline, bool trouble,
                              const std::vector<std::string>& paragraphs,
                              const std::vector<KeyLine>& key) const {
  const int text_px = image_.cols - 2 * kMarginPx;
  const auto title = wrapped(headline, kHeadlineScale, text_px);
  std::vector<std::string> lines;
  for (const std::string& paragraph : paragraphs) {
    for (std::string& line : wrapped(paragraph, kTextScale, text_px)) {
      lines.push_back(std::move(line));
    }
  }
  const int title_px = kHeadlineHeightPx * static_cast<int>(title.size()) + kMarginPx;
  const int top = title_px + kLineHeightPx * static_cast<int>(lines.size()) + 2 * kMarginPx;
  int key_lines = 0;
  std::vector<std::vector<std::string>> meanings;
  for (const KeyLine& k : key) {
    meanings.push_back(wrapped(k.meaning, kTextScale, text_px - kKeySignPx));
    key_lines += static_cast<int>(meanings.back().size());
  }
  const int bottom = key.empty() ? 0 : kLineHeightPx * key_lines + 2 * kMarginPx;

  cv::Mat framed(top + image_.rows + bottom, image_.cols, CV_8UC3, pen::kPaper);
  image_.copyTo(framed(cv::Rect(0, top, image_.cols, image_.rows)));
  if (trouble) framed(cv::Rect(0, 0, image_.cols, title_px)).setTo(pen::kWords);
  const auto write = [&](const std::string& text, int x, int y, double scale,
                         const cv::Scalar& colour, int thick) {
    cv::putText(framed, text, cv::Point(x, y), kFont, scale, colour, thick, cv::LINE_AA);
  };
  for (std::size_t i = 0; i < title.size(); ++i) {
    write(title[i], kMarginPx, kHeadlineHeightPx * static_cast<int>(i + 1) - 6, kHeadlineScale,
          trouble ? pen::kPaper : pen::kWords, 2);
  }
  for (std::size_t i = 0; i < lines.size(); ++i) {
    write(lines[i], kMarginPx, title_px + kLineHeightPx * static_cast<int>(i + 1), kTextScale,
          pen::kWords, 1);
  }
  int y = top + image_.rows + kMarginPx + kLineHeightPx - 4;
  for (std::size_t i = 0; i < key.size(); ++i) {
    draw_sign(framed, key[i].sign, cv::Point(kMarginPx + 14, y - 6));
    for (const std::string& line : meanings[i]) {
      write(line, kMarginPx + kKeySignPx, y, kTextScale, pen::kWords, 1);
      y += kLineHeightPx;
    }
  }
  cv::cvtColor(framed, framed, cv::COLOR_BGR2RGB);
  return {framed.cols, framed.rows, {framed.datastart, framed.dataend}};
}

}  // namespace versolay
