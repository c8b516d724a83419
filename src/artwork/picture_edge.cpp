#include "artwork/picture_edge.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace versolay {
namespace {

constexpr double kTolerance = 0.03;  // of full scale
constexpr double kStray = 0.005;     // share of pixels that may differ
constexpr double kSeam = 1.5;        // the seam of a pattern against its inner steps

struct Place {
  int x;
  int y;
};

/// The pixels of the rectangle `depth` inside the picture's edge.
std::vector<Place> ring(const Raster& image, int depth) {
  std::vector<Place> places;
  const int right = image.width_px - 1 - depth;
  const int bottom = image.height_px - 1 - depth;
  for (int x = depth; x <= right; ++x) {
    places.push_back({x, depth});
    places.push_back({x, bottom});
  }
  for (int y = depth + 1; y < bottom; ++y) {
    places.push_back({depth, y});
    places.push_back({right, y});
  }
  return places;
}

std::vector<int> median_colour(const Raster& image, const std::vector<Place>& places) {
  std::vector<int> colour;
  std::vector<int> values(places.size());
  for (int c = 0; c < image.channels; ++c) {
    for (std::size_t i = 0; i < places.size(); ++i) {
      values[i] = image.at(places[i].x, places[i].y, c);
    }
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    colour.push_back(*middle);
  }
  return colour;
}

bool has_colour(const Raster& image, const Place& at, const std::vector<int>& colour) {
  for (int c = 0; c < image.channels; ++c) {
    const int off = std::abs(image.at(at.x, at.y, c) - colour[static_cast<std::size_t>(c)]);
    if (off > kTolerance * image.largest()) return false;
  }
  return true;
}

int plain_band(const Raster& image, const std::vector<int>& colour) {
  const int deepest = (std::min(image.width_px, image.height_px) - 1) / 2;
  int depth = 0;
  for (; depth <= deepest; ++depth) {
    const std::vector<Place> places = ring(image, depth);
    const auto strays = std::count_if(places.begin(), places.end(), [&](const Place& p) {
      return !has_colour(image, p, colour);
    });
    if (static_cast<double>(strays) > kStray * static_cast<double>(places.size())) break;
  }
  return depth;
}

/// Mean difference between two columns (rows), all channels.
double step(const Raster& image, bool columns, int a, int b) {
  const int length = columns ? image.height_px : image.width_px;
  double sum = 0;
  for (int i = 0; i < length; ++i) {
    for (int c = 0; c < image.channels; ++c) {
      sum += columns ? std::abs(image.at(a, i, c) - image.at(b, i, c))
                     : std::abs(image.at(i, a, c) - image.at(i, b, c));
    }
  }
  return sum / length / image.channels;
}

bool goes_on(const Raster& image, bool columns) {
  const int count = columns ? image.width_px : image.height_px;
  if (count < 8) return false;
  constexpr int kSamples = 64;
  std::vector<double> inside;
  for (int i = 0; i < kSamples; ++i) {
    const int at = i * (count - 1) / kSamples;
    inside.push_back(step(image, columns, at, at + 1));
  }
  std::sort(inside.begin(), inside.end());
  const double usual = inside[inside.size() * 3 / 4];
  return step(image, columns, count - 1, 0) <= kSeam * usual + image.largest() / 255.0;
}

}  // namespace

ArtEdge examine_edge(const Raster& image, int least_band_px) {
  const std::vector<int> colour = median_colour(image, ring(image, 0));
  ArtEdge edge;
  for (int value : colour) edge.colour.push_back(value / static_cast<double>(image.largest()));
  edge.band_px = plain_band(image, colour);
  if (edge.band_px >= std::max(1, least_band_px)) {
    const bool ink_is_more = image.channels == 4;  // CMYK: white is none
    const bool white = std::all_of(colour.begin(), colour.end(), [&](int value) {
      const double ink = ink_is_more ? value : image.largest() - value;
      return ink <= kTolerance * image.largest();
    });
    edge.kind = white ? EdgeKind::white : EdgeKind::plain;
    return edge;
  }
  if (edge.band_px == 0 && goes_on(image, true) && goes_on(image, false))
    edge.kind = EdgeKind::pattern;
  return edge;
}

}  // namespace versolay
