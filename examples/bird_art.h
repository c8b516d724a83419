// The pictures of the demo deck: birds for an identification deck, drawn by code.
#pragma once

#include <opencv2/core.hpp>
#include <string>
#include <vector>

namespace bird_deck {

/// A card and the bleed round it, at a resolution. All drawing is in millimetres.
struct CardFormat {
  double width_mm = 63.0;
  double height_mm = 88.0;
  double bleed_mm = 2.0;  // per side
  double ppi = 300.0;

  double full_width_mm() const { return width_mm + 2 * bleed_mm; }
  double full_height_mm() const { return height_mm + 2 * bleed_mm; }
};

/// Colours are 0xRRGGBB.
struct Plumage {
  int back = 0;
  int wing = 0;
  int breast = 0;
  int belly = 0;
  int head = 0;
  int cap = 0;  // upper half of the head
  int cheek = 0;
  int throat = 0;
  int wing_bar = 0;
  int tail = 0;
  int beak = 0;
  int legs = 0;
};

/// Lengths are shares of the length of the body; angles in degrees, up from level.
struct Shape {
  double beak_length = 0.13;
  double beak_height = 0.07;
  double tail_length = 0.55;
  double tail_angle = -32.0;
  double roundness = 1.0;  // of body and head
  double crest = 0.0;
  bool eye_stripe = false;
  bool spots = false;
};

struct Bird {
  std::string name;
  int length_cm = 0;  // beak to tail, round figures; from memory
  std::string habitat;
  Plumage plumage;
  Shape shape;
};

/// The 18 birds of the club's deck.
const std::vector<Bird>& birds();

/// 8-bit BGR pictures of the card with its bleed.
cv::Mat draw_front(const CardFormat& format, const Bird& bird, int number, int of);
/// A plain edge colour, a frame, and an emblem: nothing that shows where it is cut.
cv::Mat draw_bordered_back(const CardFormat& format);
/// A pattern from edge to edge.
cv::Mat draw_patterned_back(const CardFormat& format);

}  // namespace bird_deck
