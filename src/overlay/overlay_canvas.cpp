#include "overlay/overlay_canvas.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "words/typeset.h"

namespace versolay {
namespace {

constexpr double kHeadlinePx = 23.0;  // em square
constexpr double kTextPx = 15.5;
constexpr double kMarkPx = 14.5;
constexpr int kHeadlineHeightPx = 36;
constexpr int kLineHeightPx = 22;
constexpr int kMarginPx = 10;
constexpr int kKeySignPx = 40;
constexpr int kBesideBarPx = 12;
constexpr double kDarkShare = 0.01;   // of a scan: black card and ink
constexpr double kGrainShare = 0.08;  // of the contrast of paper and ink: drawn as plain paper
constexpr int kGreySteps = 12;        // of the scan under the drawing: paper's grain costs bytes

std::vector<std::string> wrapped(const Lettering& letters, const std::string& text, double size_px,
                                 int width_px) {
  std::vector<std::string> lines = {""};
  std::size_t start = 0;
  while (start < text.size()) {
    const std::size_t end = std::min(text.find(' ', start), text.size());
    const std::string word = text.substr(start, end - start);
    const std::string longer = lines.back() + (lines.back().empty() ? "" : " ") + word;
    if (!lines.back().empty() && letters.width_px(longer, size_px) > width_px) {
      lines.push_back(word);
    } else {
      lines.back() = longer;
    }
    start = end + 1;
  }
  return lines;
}

/// @param base  where the words begin, on their base line.
void write(cv::Mat& image, const Lettering& letters, const std::string& text, const cv::Point& base,
           double size_px, const cv::Scalar& colour) {
  const LetteredLine line = letters.line(text, size_px);
  for (int y = 0; y < line.height_px; ++y) {
    for (int x = 0; x < line.width_px; ++x) {
      const cv::Point at(base.x + line.left_px + x, base.y + line.top_px + y);
      const double cover = line.at(x, y) / 255.0;
      if (cover == 0 || at.x < 0 || at.x >= image.cols || at.y < 0 || at.y >= image.rows) continue;
      cv::Vec3b& pixel = image.at<cv::Vec3b>(at);
      for (int c = 0; c < 3; ++c) {
        pixel[c] = cv::saturate_cast<std::uint8_t>(cover * colour[c] + (1 - cover) * pixel[c]);
      }
    }
  }
}

void draw_diamond(cv::Mat& image, const cv::Point2d& c, double half, const cv::Scalar& colour) {
  const std::vector<cv::Point> corners = {
      cv::Point2d(c.x - half, c.y), cv::Point2d(c.x, c.y - half), cv::Point2d(c.x + half, c.y),
      cv::Point2d(c.x, c.y + half)};
  cv::polylines(image, corners, true, colour, 2, cv::LINE_AA);
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

/// Returns how far to the right the words begin.
int Canvas::draw_sign(cv::Mat& image, const KeyLine& key, const cv::Point& c) const {
  switch (key.sign) {
    case Sign::ring:
      cv::circle(image, c, 8, pen::kRing, 1, cv::LINE_AA);
      cv::line(image, c, c + cv::Point(14, -6), pen::kRing, 1, cv::LINE_AA);
      break;
    case Sign::cross:
      cv::drawMarker(image, c, pen::kTrouble, cv::MARKER_TILTED_CROSS, 16, 2, cv::LINE_AA);
      break;
    case Sign::diamond:
      draw_diamond(image, c, 8, pen::kTrouble);
      break;
    case Sign::hole:
      cv::circle(image, c, 8, pen::kHole, 2, cv::LINE_AA);
      cv::circle(image, c, 4, pen::kHole, 1, cv::LINE_AA);
      break;
    case Sign::edge:
      cv::line(image, c - cv::Point(10, 0), c + cv::Point(10, 0), pen::kHole, 4, cv::LINE_AA);
      break;
    case Sign::arrow:
      cv::arrowedLine(image, c - cv::Point(10, -3), c + cv::Point(12, -3), pen::kHole, 3,
                      cv::LINE_AA, 0, 0.3);
      break;
    case Sign::scale: {
      const cv::Point from(kMarginPx, c.y);
      const cv::Point to(kMarginPx + static_cast<int>(std::lround(px(key.length_px))), c.y);
      cv::line(image, from, to, pen::kWords, 2);
      for (const cv::Point& end : {from, to}) {
        cv::line(image, end - cv::Point(0, 6), end + cv::Point(0, 6), pen::kWords, 2);
      }
      return to.x + kBesideBarPx;
    }
    case Sign::box:
      cv::rectangle(image, c - cv::Point(9, 7), c + cv::Point(9, 7), pen::kTrouble, 2, cv::LINE_AA);
      break;
  }
  return kMarginPx + kKeySignPx;
}

void Canvas::words(const Point<ScanPx>& p, const std::string& utf8, const cv::Scalar& colour) {
  const std::string text = typeset(utf8);
  const int width = static_cast<int>(std::ceil(plain_.width_px(text, kMarkPx)));
  const int height = static_cast<int>(std::ceil(0.76 * kMarkPx));  // of capitals
  const int below = static_cast<int>(std::ceil(0.25 * kMarkPx));
  const cv::Point2d c = at(p);
  const double left = std::clamp(c.x - width / 2.0, 4.0, std::max(4.0, image_.cols - width - 4.0));
  const double base = std::clamp(c.y, height + 4.0, image_.rows - below - 2.0);
  cv::rectangle(image_, cv::Point2d(left - 3, base - height - 3),
                cv::Point2d(left + width + 3, base + below), pen::kPaper, cv::FILLED);
  write(image_, plain_, text, cv::Point2d(left, base), kMarkPx, colour);
}

OverlayPicture Canvas::framed(const std::string& headline, bool trouble,
                              const std::vector<std::string>& paragraphs,
                              const std::vector<KeyLine>& key) const {
  const int text_px = image_.cols - 2 * kMarginPx;
  const auto title = wrapped(bold_, typeset(headline), kHeadlinePx, text_px);
  std::vector<std::string> lines;
  for (const std::string& paragraph : paragraphs) {
    for (std::string& line : wrapped(plain_, typeset(paragraph), kTextPx, text_px)) {
      lines.push_back(std::move(line));
    }
  }
  const int title_px = kHeadlineHeightPx * static_cast<int>(title.size()) + kMarginPx;
  const int top = title_px + kLineHeightPx * static_cast<int>(lines.size()) + 2 * kMarginPx;
  int key_lines = 0;
  std::vector<std::vector<std::string>> meanings;
  for (const KeyLine& k : key) {
    const int beside = std::max(kKeySignPx, static_cast<int>(px(k.length_px)) + kBesideBarPx);
    meanings.push_back(wrapped(plain_, typeset(k.meaning), kTextPx, text_px - beside));
    key_lines += static_cast<int>(meanings.back().size());
  }
  const int bottom = key.empty() ? 0 : kLineHeightPx * key_lines + 2 * kMarginPx;

  cv::Mat framed(top + image_.rows + bottom, image_.cols, CV_8UC3, pen::kPaper);
  image_.copyTo(framed(cv::Rect(0, top, image_.cols, image_.rows)));
  if (trouble) framed(cv::Rect(0, 0, image_.cols, title_px)).setTo(pen::kWords);
  for (std::size_t i = 0; i < title.size(); ++i) {
    write(framed, bold_, title[i],
          cv::Point(kMarginPx, kHeadlineHeightPx * static_cast<int>(i + 1) - 6), kHeadlinePx,
          trouble ? pen::kPaper : pen::kWords);
  }
  for (std::size_t i = 0; i < lines.size(); ++i) {
    write(framed, plain_, lines[i],
          cv::Point(kMarginPx, title_px + kLineHeightPx * static_cast<int>(i + 1)), kTextPx,
          pen::kWords);
  }
  int y = top + image_.rows + kMarginPx + kLineHeightPx - 4;
  for (std::size_t i = 0; i < key.size(); ++i) {
    const int x = draw_sign(framed, key[i], cv::Point(kMarginPx + 14, y - 6));
    for (const std::string& line : meanings[i]) {
      write(framed, plain_, line, cv::Point(x, y), kTextPx, pen::kWords);
      y += kLineHeightPx;
    }
  }
  cv::cvtColor(framed, framed, cv::COLOR_BGR2RGB);
  return {framed.cols, framed.rows, {framed.datastart, framed.dataend}};
}

}  // namespace versolay
