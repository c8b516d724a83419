// The two backs of the deck.
#include <cmath>

#include "bird_art.h"
#include "card_canvas.h"

namespace bird_deck {
namespace {

/// A feather, its quill along `angle_deg` from upright: the emblem of the club.
void draw_feather(Canvas& canvas, Point2d at, double length, double angle_deg, int rgb, int vein) {
  const Point2d along(std::sin(radians(angle_deg)), -std::cos(radians(angle_deg)));
  const Point2d across(-along.y, along.x);
  const auto p = [&](double a, double b) {
    return at + along * (a * length) + across * (b * length);
  };
  canvas.fill(smooth({p(-0.30, 0.02), p(-0.12, 0.15), p(0.2, 0.15), p(0.46, 0.05), p(0.54, 0),
                      p(0.46, -0.05), p(0.2, -0.15), p(-0.12, -0.15), p(-0.30, -0.02)}),
              rgb);
  canvas.line({p(-0.52, 0.0), p(0.48, 0.0)}, 0.028 * length, vein);
  for (const double a : {-0.16, 0.0, 0.16, 0.3}) {
    canvas.line({p(a, 0.0), p(a + 0.10, 0.10)}, 0.014 * length, vein);
    canvas.line({p(a, 0.0), p(a + 0.10, -0.10)}, 0.014 * length, vein);
  }
}

}  // namespace

cv::Mat draw_bordered_back(const CardFormat& format) {
  Canvas canvas(format);
  canvas.fill(box({0, 0}, {canvas.width(), canvas.height()}), kDeepGreen);
  const double inset = format.bleed_mm + 4.0;
  const Point2d from(inset, inset), to(canvas.width() - inset, canvas.height() - inset);
  canvas.fill(box(from, to, 2.5), kPaper);
  canvas.line(box(from + Point2d(1.2, 1.2), to - Point2d(1.2, 1.2), 1.6), 0.35, kDeepGreen, true);
  const Point2d middle(canvas.width() / 2, canvas.height() / 2);
  for (int i = 0; i < 8; ++i) {
    const double angle = 45.0 * i;
    const Point2d out(std::sin(radians(angle)), -std::cos(radians(angle)));
    draw_feather(canvas, middle + out * 13.5, 17.0, angle, i % 2 == 0 ? kMossGreen : kAmber,
                 kPaper);
  }
  canvas.fill(ellipse(middle, 3.2, 3.2), kDeepGreen);
  canvas.fill(ellipse(middle, 1.5, 1.5), kAmber);
  for (const double y : {middle.y - 32.0, middle.y + 32.0}) {
    for (const int i : {-2, -1, 0, 1, 2}) {
      canvas.fill(ellipse({middle.x + i * 4.5, y}, i == 0 ? 1.1 : 0.7, i == 0 ? 1.1 : 0.7),
                  i % 2 == 0 ? kAmber : kMossGreen);
    }
  }
  return canvas.picture();
}

cv::Mat draw_patterned_back(const CardFormat& format) {
  Canvas canvas(format);
  canvas.fill(box({0, 0}, {canvas.width(), canvas.height()}), 0x1f4a5c);
  const int tones[] = {0x3d8196, 0xe0b04e, 0xd9e3d3, 0x2f6a7f};
  const double step = 9.5;
  for (int row = -1; row * step * 0.8 < canvas.height() + step; ++row) {
    for (int column = -1; column * step < canvas.width() + step; ++column) {
      const Point2d at((column + (row % 2 == 0 ? 0.0 : 0.5)) * step, row * step * 0.8);
      const int tone = tones[static_cast<std::size_t>((row + 1) * 2 + column + 1) % 4];
      draw_feather(canvas, at, 9.0, (row + column) % 2 == 0 ? 35 : -35, tone, 0x1f4a5c);
    }
  }
  return canvas.picture();
}

}  // namespace bird_deck
