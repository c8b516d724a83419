// A PDF written by hand, and rulers for pictures: what the rehearsal tests share.
#pragma once

#include <cstdint>
#include <filesystem>
#include <opencv2/imgcodecs.hpp>
#include <string>
#include <vector>

#include "core/files.h"
#include "core/numbers.h"
#include "rehearse/program.h"
#include "rehearse/scan_image.h"
#include "rehearse/simulate.h"

namespace versolay::rehearse {

/// A filled disc, or a ring when inner_mm > 0, in mm from the page centre, y down.
struct DrawnDisc {
  double x_mm;
  double y_mm;
  double outer_mm;
  double inner_mm = 0.0;
};
using DrawnPage = std::vector<DrawnDisc>;

/// PDF operators for a circle of four Bezier curves.
/// Source of the constant  4/3 (sqrt 2 - 1); such a circle is round within 0.03 % of its radius.
inline std::string circle_path(double x, double y, double r, bool clockwise) {
  const double k = 0.5522847498307936 * r, s = clockwise ? -1.0 : 1.0;
  const auto n = [](double v) { return format_number(v, 6) + " "; };
  std::string t = n(x + r) + n(y) + "m\n";
  t += n(x + r) + n(y + s * k) + n(x + k) + n(y + s * r) + n(x) + n(y + s * r) + "c\n";
  t += n(x - k) + n(y + s * r) + n(x - r) + n(y + s * k) + n(x - r) + n(y) + "c\n";
  t += n(x - r) + n(y - s * k) + n(x - k) + n(y - s * r) + n(x) + n(y - s * r) + "c\n";
  t += n(x + k) + n(y - s * r) + n(x + r) + n(y - s * k) + n(x + r) + n(y) + "c h\n";
  return t;
}

inline std::string hand_written_pdf(double width_mm, double height_mm,
                                    const std::vector<DrawnPage>& pages) {
  std::string pdf = "%PDF-1.4\n";
  std::vector<std::size_t> offsets;
  const auto object = [&](const std::string& body) {
    offsets.push_back(pdf.size());
    pdf += std::to_string(offsets.size()) + " 0 obj\n" + body + "\nendobj\n";
  };
  std::string kids;
  for (std::size_t i = 0; i < pages.size(); ++i) kids += std::to_string(3 + 2 * i) + " 0 R ";
  object("<</Type/Catalog/Pages 2 0 R>>");
  object("<</Type/Pages/Kids[" + kids + "]/Count " + std::to_string(pages.size()) + ">>");
  for (const DrawnPage& page : pages) {
    std::string content = "0 g\n";
    for (const DrawnDisc& d : page) {
      const double x = pt_from_mm(width_mm / 2 + d.x_mm), y = pt_from_mm(height_mm / 2 - d.y_mm);
      content += circle_path(x, y, pt_from_mm(d.outer_mm), false);
      if (d.inner_mm > 0) content += circle_path(x, y, pt_from_mm(d.inner_mm), true);
      content += "f\n";
    }
    object("<</Type/Page/Parent 2 0 R/MediaBox[0 0 " + format_number(pt_from_mm(width_mm), 6) +
           " " + format_number(pt_from_mm(height_mm), 6) + "]/Resources<<>>/Contents " +
           std::to_string(offsets.size() + 2) + " 0 R>>");
    object("<</Length " + std::to_string(content.size()) + ">>\nstream\n" + content +
           "\nendstream");
  }
  const std::size_t table = pdf.size();
  pdf += "xref\n0 " + std::to_string(offsets.size() + 1) + "\n0000000000 65535 f \n";
  for (std::size_t offset : offsets) {
    const std::string digits = std::to_string(offset);
    pdf += std::string(10 - digits.size(), '0') + digits + " 00000 n \n";
  }
  pdf += "trailer\n<</Size " + std::to_string(offsets.size() + 1) + "/Root 1 0 R>>\nstartxref\n" +
         std::to_string(table) + "\n%%EOF\n";
  return pdf;
}

/// A small sheet with a PDF of the given pages.
struct TestJob {
  TemporaryFolder folder;
  PrintJob job;

  TestJob(double width_mm, double height_mm, const std::vector<DrawnPage>& pages) {
    job.pdf = folder.path() / "job.pdf";
    job.paper = paper_of_size(width_mm, height_mm);
    write_file_atomically(job.pdf, hand_written_pdf(width_mm, height_mm, pages), true);
  }
  RehearsalScans run(const RehearsalSettings& settings) const {
    return print_and_scan(settings, job, folder.path() / "out");
  }
};

inline ScanImage picture(const RehearsalScans& scans, int sheet, Side side) {
  for (const ScanTruth& p : scans.pictures) {
    if (p.sheet != sheet || p.side != side) continue;
    const cv::Mat pixels = cv::imread(p.file.string(), cv::IMREAD_UNCHANGED);
    return {pixels.cols, pixels.rows, pixels.channels(), {pixels.datastart, pixels.dataend}};
  }
  throw std::runtime_error("sheet " + std::to_string(sheet) + " was not scanned");
}

/// Of a grey picture.
inline int value_at(const ScanImage& image, int x, int y) {
  return image.bytes.at(static_cast<std::size_t>(y) * image.width + x);
}

/// Centroid and area of darkness (255 - value) in a square window, px; the picture must be
/// proportional to light, its surroundings pure white.
struct Darkness {
  Point<ScanPx> centre;
  double area_px = 0.0;
};
inline Darkness darkness_near(const ScanImage& grey, const Point<ScanPx>& expected,
                              double reach_px) {
  double sum = 0, sum_x = 0, sum_y = 0;
  for (int y = static_cast<int>(expected.y - reach_px); y <= expected.y + reach_px; ++y) {
    for (int x = static_cast<int>(expected.x - reach_px); x <= expected.x + reach_px; ++x) {
      const double dark = (255.0 - value_at(grey, x, y)) / 255.0;
      sum += dark;
      sum_x += dark * (x + 0.5);
      sum_y += dark * (y + 0.5);
    }
  }
  return {{sum_x / sum, sum_y / sum}, sum};
}

}  // namespace versolay::rehearse
