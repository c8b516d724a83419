#include "imposition/card_preview.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "artwork/lettering.h"
#include "artwork/raster.h"
#include "core/files.h"
#include "core/numbers.h"
#include "imposition/findings.h"
#include "pdf/text_block.h"

namespace versolay {
namespace {

constexpr double kPpi = 300.0;
constexpr int kFinePerPixel = 2;       // samples along each side of a pixel
constexpr double kBandMarginMm = 3.0;  // of artwork shown around the card of back-band.png
constexpr double kMedianOfNormal = 0.6745;
constexpr double kBeyondBandMm = 1.0;
constexpr double kStripeMm = 0.5;
constexpr double kStripeShare = 0.5;
constexpr double kCaptionMm = 2.6;
constexpr double kCaptionLineMm = 3.8;
constexpr double kCaptionMarginMm = 2.0;

using Rgb = Eigen::Vector3d;  // 0..1

/// The pixels of the images on a page.
class Pixels {
 public:
  explicit Pixels(const Deck& deck) : deck_(deck) {}

  static bool known(const Artwork& art) {
    const auto* image = std::get_if<CodedImage>(&art);
    return image != nullptr && image->components != 4;
  }

  const Raster& of(std::size_t index) {
    auto [place, is_new] = rasters_.try_emplace(index);
    if (is_new) {
      const auto& image = std::get<CodedImage>(deck_.images[index]);
      place->second = read_raster(image.file, image.page);
    }
    return place->second;
  }

 private:
  const Deck& deck_;
  std::map<std::size_t, Raster> rasters_;
};

bool holds(const PageRect& r, const Point<PageMm>& p) {
  return p.x >= r.left_mm && p.x < r.right_mm && p.y >= r.top_mm && p.y < r.bottom_mm;
}

Eigen::Vector2d turned(Eigen::Vector2d v, int quarter_turns) {
  for (int i = 0; i < quarter_turns; ++i) v = Eigen::Vector2d(-v.y(), v.x());  // clockwise, y down
  return v;
}

Rgb colour_of(const Raster& raster, int x, int y) {
  Rgb colour;
  for (int c = 0; c < 3; ++c) {
    colour[c] =
        raster.at(x, y, raster.channels == 1 ? 0 : c) / static_cast<double>(raster.largest());
  }
  return colour;
}

/// What is printed at a place of the page, drawings aside.
Rgb printed_at(const PdfPage& page, Pixels& pixels, const Point<PageMm>& at) {
  for (auto placed = page.images.rbegin(); placed != page.images.rend(); ++placed) {
    if (!holds(placed->crop, at)) continue;
    const Raster& raster = pixels.of(placed->image);
    const Eigen::Vector2d in_image =
        turned(at.vec() - placed->centre.vec(), (4 - placed->quarter_turns) % 4);
    const double u = (in_image.x() / placed->width_mm + 0.5) * raster.width_px;
    const double v = (in_image.y() / placed->height_mm + 0.5) * raster.height_px;
    if (u < 0 || v < 0 || u >= raster.width_px || v >= raster.height_px) continue;
    return colour_of(raster, static_cast<int>(u), static_cast<int>(v));
  }
  for (const ColourField& field : page.fields) {
    if (!holds(field.area, at)) continue;
    Rgb colour;
    for (int c = 0; c < 3; ++c) {
      colour[c] = field.colour[field.colour.size() == 1 ? 0 : static_cast<std::size_t>(c)];
    }
    return colour;
  }
  return Rgb::Ones();
}

/// How far outside of the card with its round corners a place is; negative inside. The place is
/// relative to the middle of the upright card.
double outside_mm(const Eigen::Vector2d& at, const Eigen::Vector2d& half, double radius) {
  const Eigen::Vector2d q = at.cwiseAbs() - (half.array() - radius).matrix();
  return q.cwiseMax(0.0).norm() + std::min(q.maxCoeff(), 0.0) - radius;
}

/// A window onto a page, upright as the card.
struct View {
  const PdfPage& page;
  CardPlace place;
  double margin_mm = 0.0;  // of the picture around the card
};

/// Renders the window; `shade` may change the colour of a place (relative to the middle of the
/// upright card, in mm).
template <class Shade>
Raster rendered(const View& view, Pixels& pixels, const Shade& shade) {
  const bool lies = view.place.quarter_turns % 2 != 0;
  Eigen::Vector2d size(view.place.cell.width_mm(), view.place.cell.height_mm());
  if (lies) std::swap(size.x(), size.y());
  size.array() += 2 * view.margin_mm;
  Raster raster;
  raster.width_px = static_cast<int>(std::lround(artwork_px_from_mm(size.x(), kPpi)));
  raster.height_px = static_cast<int>(std::lround(artwork_px_from_mm(size.y(), kPpi)));
  raster.ppi_x = raster.ppi_y = kPpi;
  raster.samples.resize(static_cast<std::size_t>(raster.width_px) *
                        static_cast<std::size_t>(raster.height_px) * 3);
  const Eigen::Vector2d middle = view.place.cell.centre().vec();
  for (int y = 0; y < raster.height_px; ++y) {
    for (int x = 0; x < raster.width_px; ++x) {
      Rgb sum = Rgb::Zero();
      for (int s = 0; s < kFinePerPixel * kFinePerPixel; ++s) {
        const double px = x + (s % kFinePerPixel + 0.5) / kFinePerPixel;
        const double py = y + (s / kFinePerPixel + 0.5) / kFinePerPixel;
        const Eigen::Vector2d on_card(px * kMmPerInch / kPpi - size.x() / 2,
                                      py * kMmPerInch / kPpi - size.y() / 2);
        const Eigen::Vector2d on_page = middle + turned(on_card, view.place.quarter_turns);
        sum += shade(on_card, printed_at(view.page, pixels, Point<PageMm>::from(on_page)));
      }
      for (int c = 0; c < 3; ++c) {
        raster.at(x, y, c) =
            static_cast<std::uint16_t>(std::lround(255 * sum[c] / (kFinePerPixel * kFinePerPixel)));
      }
    }
  }
  return raster;
}

Eigen::Vector2d half_of(const CardPlace& place) {
  Eigen::Vector2d half(place.cell.width_mm() / 2, place.cell.height_mm() / 2);
  if (place.quarter_turns % 2 != 0) std::swap(half.x(), half.y());
  return half;
}

CardPlace moved(CardPlace place, const Eigen::Vector2d& by) {
  PageRect& r = place.cell;
  r = {r.left_mm + by.x(), r.top_mm + by.y(), r.right_mm + by.x(), r.bottom_mm + by.y()};
  return place;
}

/// The card as it is cut, on white.
Raster card(const PdfPage& page, Pixels& pixels, const CardPlace& place, double radius) {
  const Eigen::Vector2d half = half_of(place);
  return rendered({page, place, 0.0}, pixels, [&](const Eigen::Vector2d& at, const Rgb& colour) {
    return outside_mm(at, half, radius) > 0 ? Rgb(Rgb::Ones()) : colour;
  });
}

/// Dark and light stripes: seen on any art.
Rgb striped(const Eigen::Vector2d& at, const Rgb& colour) {
  const bool light = std::fmod(std::floor((at.x() + at.y()) / kStripeMm) + 1e6, 2.0) < 1;
  return colour * (1 - kStripeShare) + (light ? Rgb(Rgb::Ones()) : Rgb(Rgb::Zero())) * kStripeShare;
}

Raster band(const PdfPage& page, Pixels& pixels, const CardPlace& place, double radius,
            Eigen::Vector2d reach) {
  const Eigen::Vector2d half = half_of(place);
  if (place.quarter_turns % 2 != 0) std::swap(reach.x(), reach.y());
  const double line = 0.08;
  const double edge = 0.04;
  const double margin = std::max(kBandMarginMm, reach.maxCoeff() + kBeyondBandMm);
  return rendered({page, place, margin}, pixels, [&](const Eigen::Vector2d& at, const Rgb& colour) {
    const double outer = outside_mm(at, half + reach, radius);
    const double inner = outside_mm(at, half - reach, radius);
    if (std::abs(outside_mm(at, half, radius)) < line) return Rgb(Rgb::Zero());
    if (std::abs(outer) < edge || std::abs(inner) < edge) return Rgb(Rgb::Zero());
    return outer > 0 || inner < 0 ? colour : striped(at, colour);
  });
}

/// The picture on white, above these words.
Raster captioned(const Raster& picture, const std::string& words) {
  const auto px = [](double mm) { return artwork_px_from_mm(mm, kPpi); };
  const double width_mm = picture.width_px * kMmPerInch / kPpi - 2 * kCaptionMarginMm;
  const std::vector<std::string> lines = wrapped(words, width_mm, kCaptionMm);
  const double lines_mm = static_cast<double>(lines.size()) * kCaptionLineMm;
  Raster page = picture;
  page.height_px += static_cast<int>(std::lround(px(lines_mm + 2 * kCaptionMarginMm)));
  page.samples.resize(
      static_cast<std::size_t>(page.width_px) * static_cast<std::size_t>(page.height_px) * 3, 255);
  const Lettering letters;
  double base = picture.height_px + px(kCaptionMarginMm + kCaptionMm);
  for (const std::string& words_of_line : lines) {
    const LetteredLine line = letters.line(words_of_line, px(kCaptionMm));
    for (int y = 0; y < line.height_px; ++y) {
      for (int x = 0; x < line.width_px; ++x) {
        if (line.at(x, y) == 0) continue;
        const int at_x = static_cast<int>(std::lround(px(kCaptionMarginMm))) + line.left_px + x;
        const int at_y = static_cast<int>(std::lround(base)) + line.top_px + y;
        if (at_x < 0 || at_x >= page.width_px || at_y >= page.height_px) continue;
        for (int c = 0; c < 3; ++c) {
          page.at(at_x, at_y, c) = static_cast<std::uint16_t>(255 - line.at(x, y));
        }
      }
    }
    base += px(kCaptionLineMm);
  }
  return page;
}

bool can_be_shown(const PdfPage& page, const Deck& deck) {
  return std::all_of(page.images.begin(), page.images.end(),
                     [&](const PlacedImage& i) { return Pixels::known(deck.images[i.image]); });
}

}  // namespace

PreviewCell worst_cell(const PrinterProfile& profile, const Advice& advice, TurnAxis axis,
                       std::size_t cards) {
  const std::size_t filled = std::min(cards, advice.cells.size());
  const auto worst = std::min_element(
      advice.cells.begin(), advice.cells.begin() + static_cast<std::ptrdiff_t>(filled),
      [](const CellAdvice& a, const CellAdvice& b) { return a.good_percent < b.good_percent; });
  PreviewCell cell;
  cell.index = static_cast<std::size_t>(worst - advice.cells.begin());
  const Point<VersoMm> centre =
      verso_from_recto(axis)(advice.request.grid.cells.at(cell.index).centre);
  const auto j = displacement_jacobian(centre);
  const Eigen::Matrix2d spread =
      j * (profile.spread_covariance + profile.mean_covariance) * j.transpose();
  const Eigen::Vector2d sd = spread.diagonal().cwiseMax(0.0).cwiseSqrt();
  const double way = spread(0, 1) < 0 ? -1.0 : 1.0;
  cell.misses.typical_mm = kMedianOfNormal * Eigen::Vector2d(sd.x(), way * sd.y());
  cell.misses.worst_mm = {advice.oversize.x_mm, way * advice.oversize.y_mm};
  return cell;
}

std::vector<std::filesystem::path> write_preview(const PreviewRequest& r, Notices& notices) {
  if (!can_be_shown(r.recto, r.deck) || !can_be_shown(r.verso, r.deck)) {
    notices.push_back(findings::preview_not_possible());
    return {};
  }
  Pixels pixels(r.deck);
  const auto back = [&](const Eigen::Vector2d& miss) {
    // A back that landed too far to the right shows what lies to the left on its page.
    return card(r.verso, pixels, moved(r.back, -miss), r.corner_radius_mm);
  };
  std::vector<std::filesystem::path> files;
  const auto write = [&](const char* name, const Raster& picture) {
    files.push_back(r.folder / name);
    write_file_atomically(files.back(), encode_png(picture), r.replace);
  };
  write("front.png", card(r.recto, pixels, r.front, r.corner_radius_mm));
  write("back-best.png", back({0.0, 0.0}));
  write("back-typical.png", back(r.misses.typical_mm));
  write("back-worst.png", back(r.misses.worst_mm));
  write("back-band.png",
        captioned(band(r.verso, pixels, r.back, r.corner_radius_mm, r.misses.worst_mm.cwiseAbs()),
                  r.band));
  return files;
}

}  // namespace versolay
