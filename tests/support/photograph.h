// Photographs of a two-sided sheet on black card, by ray casting. It shares no code with what it
// judges, nor with src/rehearse: pages come from a PDF renderer, the rest is written out here.
#pragma once

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>
#include <random>
#include <vector>

#include "artwork/raster.h"
#include "versolay/paper.h"
#include "versolay/registration.h"

namespace versolay::testing_support {

/// A camera above the sheet. Angles in degrees, lengths in mm. Sizes of what lenses and the
/// programs of telephones do: from memory of published camera tests.
struct Camera {
  int width_px = 4000;
  int height_px = 3000;
  double focal_of_half_diagonal = 1.2;  // 26 mm on film of 36 x 24
  double height_mm = 300.0;
  double tilt_about_x = 0.0;
  double tilt_about_y = 0.0;
  double turned = 90.0;  // about the line of sight: a page upright fills a picture that lies
  double radial = 0.0;   // of the distance at the corner: -0.02 barrel, +0.02 cushion
  double radial4 = 0.0;  // the same with the fourth power
  Eigen::Vector2d axis_off_px{0.0, 0.0};  // where the lens looks, from the middle of the picture
  double blur_px = 0.7;
  double shaken_px = 0.0;  // a moving hand, along the rows
  double sharpened = 0.5;  // unsharp mask of 1.2 px, after the tone curve
  double noise = 2.0;      // of 255
  double light_falls_off = 0.3;
  double vignetting = 0.2;
  int jpeg_quality = 92;
};

/// What was photographed. The front was printed without error.
struct PaperSheet {
  double width_mm = 210.0;
  double height_mm = 297.0;
  double thickness_mm = 0.25;
  double bulge_mm = 0.0;  // height of the paper's middle, or (negative) of its ends
  double wall = 0.45;     // light that comes back from the wall of a hole; paper: 0.9
  Registration landed;
  std::vector<Eigen::Vector2d> holes;  // seen from the front
  double hole_radius_mm = 3.0;
};

class PhotographOf {
 public:
  /// @param page  the printed page of this side, `dpi` pixels per inch.
  PhotographOf(const PaperSheet& sheet, Side side, TurnAxis axis, const Raster& page, double dpi)
      : sheet_(sheet),
        page_(page),
        px_per_mm_(dpi / 25.4),
        verso_(side == Side::verso),
        page_from_landed_(sheet.landed.page_from_wanted()) {
    const Eigen::Matrix2d mirror = verso_from_recto(axis).linear();
    for (const Eigen::Vector2d& hole : sheet.holes) {
      holes_.push_back(verso_ ? Eigen::Vector2d(mirror * hole) : hole);
    }
  }

  cv::Mat1b taken_by(const Camera& camera, std::mt19937_64& random) const {
    std::uniform_real_distribution<> aim(-8.0, 8.0);
    const Eigen::Vector3d at(aim(random), aim(random), 0.0);
    cv::Mat1f picture = light_on_the_sensor(camera, at);
    cv::GaussianBlur(picture, picture, {0, 0}, camera.blur_px);
    if (camera.shaken_px > 0) {
      const int taps = 2 * static_cast<int>(camera.shaken_px) + 1;
      cv::blur(picture, picture, {taps, 1});
    }
    picture = cv::max(picture, 0.0F);
    cv::pow(picture, 1 / 2.2, picture);
    std::normal_distribution<float> noise(0.0F, static_cast<float>(camera.noise / 235.0));
    for (float& value : picture) value += noise(random);
    cv::Mat1f soft;
    cv::GaussianBlur(picture, soft, {0, 0}, 1.2);
    picture += camera.sharpened * (picture - soft);
    cv::Mat1b grey;
    picture.convertTo(grey, CV_8U, 235.0);
    return grey;
  }

  static std::vector<unsigned char> as_jpeg(const cv::Mat1b& picture, const Camera& camera) {
    std::vector<unsigned char> jpeg;
    cv::imencode(".jpg", picture, jpeg, {cv::IMWRITE_JPEG_QUALITY, camera.jpeg_quality});
    return jpeg;
  }

 private:
  static double rad(double degrees) { return degrees * M_PI / 180.0; }

  /// x right, y down, z away from the one who looks: the lens looks along +z at the page, z = 0,
  /// and is placed so that the middle of the picture shows `at`, more or less.
  cv::Mat1f light_on_the_sensor(const Camera& camera, const Eigen::Vector3d& at) const {
    const Eigen::Matrix3d world_from_camera =
        (Eigen::AngleAxisd(rad(camera.tilt_about_x), Eigen::Vector3d::UnitX()) *
         Eigen::AngleAxisd(rad(camera.tilt_about_y), Eigen::Vector3d::UnitY()) *
         Eigen::AngleAxisd(rad(camera.turned), Eigen::Vector3d::UnitZ()))
            .toRotationMatrix();
    const Eigen::Vector3d look = world_from_camera.col(2);
    const Eigen::Vector3d lens = at - look * (camera.height_mm / look.z());
    const double half = std::hypot(camera.width_px, camera.height_px) / 2;
    const Eigen::Vector2d axis =
        Eigen::Vector2d(camera.width_px, camera.height_px) / 2 + camera.axis_off_px;
    cv::Mat1f light(camera.height_px, camera.width_px);
    cv::parallel_for_(cv::Range(0, camera.height_px), [&](const cv::Range& rows) {
      for (int y = rows.start; y < rows.end; ++y) {
        for (int x = 0; x < camera.width_px; ++x) {
          double sum = 0.0;
          for (const double sub : {0.25, 0.75}) {  // the blur of the lens does the rest
            const Eigen::Vector2d d = (Eigen::Vector2d(x + sub, y + 1 - sub) - axis) / half;
            const double out = without_lens(d.norm(), camera) / std::max(d.norm(), 1e-9);
            const Eigen::Vector3d ray =
                world_from_camera *
                Eigen::Vector3d(d.x() * out, d.y() * out, camera.focal_of_half_diagonal);
            sum += reflected(lens, ray);
          }
          const double from_middle = (Eigen::Vector2d(x, y) - axis).squaredNorm() / (half * half);
          const double fall = (1.0 - camera.light_falls_off * x / camera.width_px) *
                              (1.0 - camera.vignetting * from_middle);
          light(y, x) = static_cast<float>(sum / 2 * fall);
        }
      }
    });
    return light;
  }

  /// Solves r (1 + radial r^2 + radial4 r^4) = seen.
  static double without_lens(double seen, const Camera& camera) {
    double r = seen;
    for (int i = 0; i < 4; ++i) {
      const double r2 = r * r;
      r -= (r * (1 + camera.radial * r2 + camera.radial4 * r2 * r2) - seen) /
           (1 + 3 * camera.radial * r2 + 5 * camera.radial4 * r2 * r2);
    }
    return r;
  }

  double surface_mm(const Eigen::Vector2d& p) const {
    const double along = 2 * p.y() / sheet_.height_mm;
    return sheet_.bulge_mm >= 0 ? sheet_.bulge_mm * (1 - along * along)
                                : -sheet_.bulge_mm * along * along;
  }

  double reflected(const Eigen::Vector3d& lens, const Eigen::Vector3d& ray) const {
    constexpr double kBlack = 0.03;
    constexpr double kPaper = 0.9;
    constexpr double kInk = 0.85;
    const Eigen::Vector2d slope = ray.head<2>() / ray.z();
    double height = 0.0;
    Eigen::Vector2d at;
    for (int i = 0; i < 3; ++i) {
      at = lens.head<2>() + slope * (-lens.z() - height);
      height = surface_mm(at);
    }
    if (std::abs(at.x()) > sheet_.width_mm / 2 || std::abs(at.y()) > sheet_.height_mm / 2) {
      return kBlack;
    }
    for (const Eigen::Vector2d& hole : holes_) {
      if ((at - hole).squaredNorm() > sheet_.hole_radius_mm * sheet_.hole_radius_mm) continue;
      const Eigen::Vector2d behind = at + slope * sheet_.thickness_mm;
      return (behind - hole).norm() < sheet_.hole_radius_mm ? kBlack : sheet_.wall;
    }
    return kPaper * (1.0 - kInk * ink(at));
  }

  double ink(const Eigen::Vector2d& on_sheet) const {
    Eigen::Vector2d p = on_sheet;
    if (verso_) p = page_from_landed_(Point<VersoMm>::from(on_sheet)).vec();
    const double x = (p.x() + sheet_.width_mm / 2) * px_per_mm_ - 0.5;
    const double y = (p.y() + sheet_.height_mm / 2) * px_per_mm_ - 0.5;
    const int left = static_cast<int>(std::floor(x));
    const int top = static_cast<int>(std::floor(y));
    if (left < 0 || top < 0 || left + 1 >= page_.width_px || top + 1 >= page_.height_px) return 0.0;
    const double right = x - left;
    const double down = y - top;
    const auto dark = [&](int column, int row) { return 1.0 - page_.at(column, row, 0) / 255.0; };
    return (1 - down) * ((1 - right) * dark(left, top) + right * dark(left + 1, top)) +
           down * ((1 - right) * dark(left, top + 1) + right * dark(left + 1, top + 1));
  }

  PaperSheet sheet_;
  const Raster& page_;
  double px_per_mm_;
  bool verso_;
  Affine<VersoMm, VersoMm> page_from_landed_;
  std::vector<Eigen::Vector2d> holes_;
};

}  // namespace versolay::testing_support
