// Birds, their surroundings, and the fronts of the cards.
#include "bird_art.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "card_canvas.h"

namespace bird_deck {
namespace {

/// Draws a bird that looks right. `at` is the middle of its body, `size_mm` the body's length.
class BirdDrawing {
 public:
  BirdDrawing(Canvas& canvas, const Bird& bird, Point2d at, double size_mm)
      : canvas_(canvas), bird_(bird), at_(at), size_(size_mm) {}

  void draw(double perch_y) {
    const Plumage& p = bird_.plumage;
    const Shape& s = bird_.shape;
    const double r = s.roundness;
    legs(perch_y);
    tail();
    beak();
    const Point2d head_at(0.33, -0.33);
    const double head = 0.205 * (0.6 + 0.4 * r);
    if (s.crest > 0) {
      canvas_.fill(placed(smooth({head_at + Point2d(0.15, -head * 0.72),
                                  head_at + Point2d(-0.06, -head - s.crest),
                                  head_at + Point2d(-0.25, -head * 0.72 - s.crest),
                                  head_at + Point2d(-head * 0.9, 0.0)})),
                   p.cap);
    }
    const Outline body = placed(smooth({{0.50, -0.20},
                                        {0.44, 0.10 * r},
                                        {0.22, 0.31 * r},
                                        {-0.10, 0.33 * r},
                                        {-0.38, 0.24},
                                        {-0.56, 0.20},
                                        {-0.50, 0.06},
                                        {-0.26, -0.16 * r},
                                        {0.04, -0.32 * r},
                                        {0.30, -0.42}}));
    const Outline head_shape = placed(ellipse(head_at, head * 1.04, head));
    canvas_.fill(body, p.back);
    canvas_.fill_within(body, placed(ellipse({0.16, 0.26 * r}, 0.62, 0.30 * r, -12)), p.belly);
    canvas_.fill_within(body, placed(ellipse({0.40, 0.02}, 0.30, 0.27 * r, -50)), p.breast);
    canvas_.fill(head_shape, p.head);
    canvas_.fill_within(head_shape, placed(ellipse(head_at + Point2d(0.10, 0.17), 0.15, 0.12, 20)),
                        p.throat);
    canvas_.fill_within(head_shape, placed(ellipse(head_at + Point2d(-0.03, 0.06), 0.13, 0.085, 8)),
                        p.cheek);
    canvas_.fill_within(head_shape, placed(ellipse(head_at + Point2d(-0.02, -0.17), 0.24, 0.14, 6)),
                        p.cap);
    if (s.eye_stripe) {
      canvas_.line(placed({head_at + Point2d(-head * 0.95, 0.02), head_at + Point2d(head, -0.03)}),
                   0.035 * size_, kInk);
    }
    wing();
    if (s.spots) spots(body);
    eye(head_at + Point2d(0.07, -0.03));
  }

 private:
  Point2d placed(const Point2d& p) const { return at_ + p * size_; }
  Outline placed(Outline outline) const {
    for (Point2d& p : outline) p = placed(p);
    return outline;
  }

  void legs(double perch_y) {
    for (const double x : {0.02, 0.16}) {
      const Point2d hip = placed(Point2d(x, 0.25));
      const Point2d foot(hip.x + 0.05 * size_, perch_y);
      canvas_.line({hip, foot}, 0.032 * size_, bird_.plumage.legs);
      for (const double toe : {-0.07, 0.02, 0.09}) {
        canvas_.line({foot, foot + Point2d(toe * size_, 0.025 * size_)}, 0.026 * size_,
                     bird_.plumage.legs);
      }
    }
  }

  void tail() {
    const Shape& s = bird_.shape;
    const double angle = radians(s.tail_angle);
    const Point2d along(-std::cos(angle), -std::sin(angle));
    const Point2d across(-along.y, along.x);
    const Point2d root = s.tail_angle > 0 ? Point2d(-0.46, 0.10) : Point2d(-0.42, 0.13);
    const Point2d tip = root + along * s.tail_length;
    canvas_.fill(placed(Outline{root + across * 0.09, tip + across * 0.085, tip + along * 0.02,
                                tip - across * 0.085, root - across * 0.09}),
                 bird_.plumage.tail);
    canvas_.line(placed(Outline{root + along * 0.12, tip}), 0.012 * size_,
                 mix(bird_.plumage.tail, 0xffffff, 0.25));
  }

  void beak() {
    const Shape& s = bird_.shape;
    const Point2d root(0.50, -0.33);
    const Point2d tip = root + Point2d(s.beak_length + 0.02, 0.035);
    canvas_.fill(placed(Outline{root - Point2d(0.06, s.beak_height * 0.7), tip,
                                root + Point2d(-0.06, s.beak_height * 0.9)}),
                 bird_.plumage.beak);
    canvas_.line(placed(Outline{root + Point2d(-0.04, 0.01), tip}), 0.008 * size_,
                 mix(bird_.plumage.beak, 0x000000, 0.45));
  }

  void wing() {
    const Plumage& p = bird_.plumage;
    const Outline wing = placed(smooth({{0.22, -0.14},
                                        {0.20, 0.05},
                                        {0.02, 0.16},
                                        {-0.30, 0.20},
                                        {-0.60, 0.26},
                                        {-0.42, 0.08},
                                        {-0.16, -0.10},
                                        {0.06, -0.20}}));
    canvas_.fill(wing, p.wing);
    canvas_.fill_within(wing, placed(ellipse({0.10, 0.07}, 0.20, 0.035, 38)), p.wing_bar);
    for (const double step : {0.0, 0.09, 0.18}) {
      canvas_.line(placed(smooth({{0.02 - step, 0.11},
                                  {-0.22 - step, 0.145 + 0.1 * step},
                                  {-0.40 - step * 0.6, 0.20},
                                  {-0.22 - step, 0.14 + 0.1 * step}})),
                   0.010 * size_, mix(p.wing, 0xffffff, 0.28));
    }
  }

  void spots(const Outline& body) {
    for (int row = 0; row < 6; ++row) {
      for (int column = 0; column < 10; ++column) {
        const Point2d at(-0.42 + 0.10 * column + 0.05 * (row % 2), -0.22 + 0.09 * row);
        canvas_.fill_within(body, placed(ellipse(at, 0.013, 0.010)),
                            mix(bird_.plumage.belly, 0xffffff, 0.5));
      }
    }
  }

  void eye(const Point2d& at) {
    canvas_.fill(placed(ellipse(at, 0.042, 0.042)), mix(bird_.plumage.cheek, 0xffffff, 0.6));
    canvas_.fill(placed(ellipse(at, 0.033, 0.033)), 0x1b1b1d);
    canvas_.fill(placed(ellipse(at + Point2d(0.011, -0.012), 0.010, 0.010)), 0xffffff);
  }

  Canvas& canvas_;
  const Bird& bird_;
  Point2d at_;
  double size_;
};

struct Scenery {
  int sky = 0;
  int haze = 0;
  int far = 0;
  int near = 0;
};

Scenery scenery_of(const std::string& habitat) {
  static const std::map<std::string, Scenery> kSceneries = {
      {"garden", {0xa9d3dc, 0xeef3df, 0xa8c48c, 0x7fa765}},
      {"woodland", {0xbcd8c4, 0xeff2dc, 0x8fb08a, 0x5f8a63}},
      {"town", {0xc6d2e0, 0xf5e9da, 0xc0b3a7, 0x93877d}},
      {"meadow", {0xb3dbe8, 0xfaf3d4, 0xcfcf86, 0xa9b45e}},
      {"hedge", {0xc9dcd6, 0xf3efd9, 0x9db483, 0x6d8d58}},
      {"orchard", {0xf3d9c9, 0xfbf1dc, 0xc3c78c, 0x93a565}},
      {"open ground", {0xb9cfe4, 0xf6eedd, 0xcbbd8f, 0xa89a68}},
      {"river", {0xb5dbe2, 0xe9f3ea, 0x8fbcc0, 0x5f9aa6}},
  };
  return kSceneries.at(habitat);
}

void draw_scene(Canvas& canvas, const Outline& frame, Point2d from, Point2d to, const Bird& bird,
                int number) {
  const Scenery s = scenery_of(bird.habitat);
  canvas.shade(frame, s.sky, s.haze);
  const double width = to.x - from.x, height = to.y - from.y;
  const double drift = 0.12 * std::sin(number * 2.1);
  canvas.fill_within(frame, ellipse(from + Point2d((0.26 + drift) * width, 0.2 * height), 5.6, 5.6),
                     mix(s.haze, 0xffffff, 0.55));
  canvas.fill_within(
      frame,
      ellipse(from + Point2d((0.2 + drift) * width, 1.02 * height), width * 0.75, height * 0.26),
      s.far);
  canvas.fill_within(
      frame,
      ellipse(from + Point2d((0.9 + drift) * width, 1.06 * height), width * 0.8, height * 0.24),
      s.near);
}

void draw_branch(Canvas& canvas, const Outline& frame, Point2d from, Point2d to, double perch_y) {
  constexpr int kBark = 0x6b4f3a;
  canvas.fill_within(frame,
                     smooth({{from.x - 2, perch_y + 2.6},
                             {from.x + 14, perch_y + 0.4},
                             {to.x - 20, perch_y + 0.1},
                             {to.x + 2, perch_y - 2.4},
                             {to.x + 2, perch_y - 0.4},
                             {to.x - 20, perch_y + 2.3},
                             {from.x + 14, perch_y + 2.9},
                             {from.x - 2, perch_y + 6.2}}),
                     kBark);
  const struct {
    double x, y, angle;
  } leaves[] = {{6.5, 4.6, 60}, {9.0, -1.6, -55}, {42.5, -4.6, -40}, {44.5, 3.0, 50}};
  for (const auto& leaf : leaves) {
    const Point2d at(from.x + leaf.x, perch_y + leaf.y);
    const Point2d along(std::cos(radians(leaf.angle)), std::sin(radians(leaf.angle)));
    const Point2d across(-along.y, along.x);
    canvas.fill_within(
        frame, smooth({at - along * 3.0, at + across * 1.3, at + along * 3.2, at - across * 1.3}),
        0x6f9a4f);
    canvas.line({at - along * 3.0, at + along * 2.6}, 0.18, 0x55793b);
  }
}

/// As large as fits between the sides of the frame, tail and beak included.
void draw_bird(Canvas& canvas, const Bird& bird, Point2d from, Point2d to, double perch_y) {
  constexpr double kRoomMm = 3.0;
  constexpr double kLargestMm = 27.0;
  const double tail_end =
      -0.46 - bird.shape.tail_length * std::cos(radians(bird.shape.tail_angle)) - 0.04;
  const double beak_end = 0.52 + bird.shape.beak_length;
  const double size = std::min(kLargestMm, (to.x - from.x - 2 * kRoomMm) / (beak_end - tail_end));
  const double middle = (from.x + to.x) / 2 - size * (tail_end + beak_end) / 2;
  BirdDrawing(canvas, bird, {middle, perch_y - 0.48 * size}, size).draw(perch_y + 0.8);
}

}  // namespace

cv::Mat draw_front(const CardFormat& format, const Bird& bird, int number, int of) {
  Canvas canvas(format);
  const double b = format.bleed_mm;
  const Point2d from(b + 5.0, b + 5.0);
  const Point2d to(canvas.width() - b - 5.0, b + 64.0);
  const Outline frame = box(from, to, 3.0);
  draw_scene(canvas, frame, from, to, bird, number);
  const double perch_y = to.y - 14.0;
  draw_branch(canvas, frame, from, to, perch_y);
  draw_bird(canvas, bird, from, to, perch_y);
  canvas.line(frame, 0.45, kDeepGreen, true);

  const double middle = canvas.width() / 2;
  canvas.words(bird.name, {middle, to.y + 9.6}, 4.3, 0.42, kInk);
  canvas.words(std::to_string(bird.length_cm) + " cm  -  " + bird.habitat, {middle, to.y + 15.2},
               2.3, 0.24, mix(kInk, kPaper, 0.25));
  canvas.words(std::to_string(number) + " / " + std::to_string(of),
               {canvas.width() - b - 9.5, to.y + 20.0}, 1.7, 0.2, mix(kInk, kPaper, 0.4));
  return canvas.picture();
}

}  // namespace bird_deck
