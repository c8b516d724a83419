#include "mutators/jpeg_parts.h"

#include <algorithm>
#include <utility>

namespace versolay::fuzz {
namespace {

/// A marker with what follows: its parameters, and after the start of a scan the coded data.
struct Segment {
  unsigned char marker = 0;
  bool has_length = true;
  std::string parameters;
  std::string coded;
  int wrong_length = -1;  // -1: the right one is written
};

unsigned char byte_at(std::string_view bytes, std::size_t i) {
  return static_cast<unsigned char>(bytes[i]);
}

bool stands_alone(unsigned char marker) {
  return marker == 0x01 || (marker >= 0xd0 && marker <= 0xd9);
}

bool is_frame(unsigned char marker) {
  return marker >= 0xc0 && marker <= 0xcf && marker != 0xc4 && marker != 0xc8 && marker != 0xcc;
}

/// Where the next marker that ends coded data begins.
std::size_t end_of_coded(std::string_view bytes, std::size_t from) {
  for (std::size_t i = from; i + 1 < bytes.size(); ++i) {
    const unsigned char next = byte_at(bytes, i + 1);
    if (byte_at(bytes, i) == 0xff && next != 0 && !(next >= 0xd0 && next <= 0xd7)) return i;
  }
  return bytes.size();
}

std::vector<Segment> segments_of(std::string_view bytes) {
  std::vector<Segment> segments;
  std::size_t at = 0;
  while (at + 2 <= bytes.size() && byte_at(bytes, at) == 0xff) {
    Segment s;
    s.marker = byte_at(bytes, at + 1);
    s.has_length = !stands_alone(s.marker);
    at += 2;
    if (s.has_length && at + 2 <= bytes.size()) {
      const std::size_t length = std::max(2, byte_at(bytes, at) << 8 | byte_at(bytes, at + 1));
      const std::size_t end = std::min(bytes.size(), at + length);
      s.parameters = bytes.substr(at + 2, end > at + 2 ? end - at - 2 : 0);
      at = end;
    }
    const std::size_t end = end_of_coded(bytes, at);
    s.coded = bytes.substr(at, end - at);
    at = end;
    segments.push_back(std::move(s));
  }
  return segments;
}

std::string joined(const std::vector<Segment>& segments) {
  std::string file;
  for (const Segment& s : segments) {
    file += '\xff';
    file += static_cast<char>(s.marker);
    if (s.has_length) {
      const int length =
          s.wrong_length >= 0 ? s.wrong_length : static_cast<int>(s.parameters.size()) + 2;
      file += static_cast<char>(length >> 8 & 0xff);
      file += static_cast<char>(length & 0xff);
      file += s.parameters;
    }
    file += s.coded;
  }
  return file;
}

Segment other_segment(Dice& dice) {
  static constexpr std::array<unsigned char, 12> kAlone = {0x01, 0xd0, 0xd1, 0xd2, 0xd3, 0xd4,
                                                           0xd5, 0xd6, 0xd7, 0xd8, 0xd9, 0xff};
  switch (dice.roll(6)) {
    case 0:
      return {dice.pick(kAlone), false, "", "", -1};
    case 1: {  // Adobe's, with every transform
      std::string adobe("Adobe\0\x64\0\0\0\0?", 12);
      adobe[11] = static_cast<char>(dice.roll(5));
      return {0xee, true, adobe, "", -1};
    }
    case 2: {  // Exif with an orientation
      std::string exif("Exif\0\0II\x2a\0\x08\0\0\0\x01\0\x12\x01\x03\0\x01\0\0\0?\0\0\0\0\0\0\0",
                       32);
      exif[24] = static_cast<char>(dice.roll(11));
      return {0xe1, true, exif, "", -1};
    }
    case 3: {
      std::string restarts(2, '\0');
      restarts[1] = static_cast<char>(dice.roll(9));
      return {0xdd, true, restarts, "", -1};
    }
    case 4: {  // a comment that looks like a frame
      return {0xfe, true, std::string("\xff\xc0\0\x11\x08\0\x01\0\x01\x03", 10), "", -1};
    }
    default: {
      const auto marker = static_cast<unsigned char>(0xc0 + dice.roll(0x3f));
      return {marker, true, some_bytes(dice), "", -1};
    }
  }
}

/// Another size, depth, number of components or sampling in a frame's header.
void change_frame(Segment& frame, Dice& dice) {
  if (frame.parameters.size() < 6) return;
  switch (dice.roll(5)) {
    case 0:
    case 1: {
      const std::size_t start = dice.one_in(2) ? 1 : 3;
      const std::uint32_t value =
          dice.one_in(2) ? edge_number(dice) : static_cast<std::uint32_t>(1 + dice.roll(60));
      frame.parameters[start] = static_cast<char>(value >> 8 & 0xff);
      frame.parameters[start + 1] = static_cast<char>(value & 0xff);
      break;
    }
    case 2:
      frame.parameters[0] = static_cast<char>(dice.roll(17));
      break;
    case 3:
      frame.parameters[5] = static_cast<char>(dice.roll(6));
      break;
    default:
      if (frame.parameters.size() > 7) frame.parameters[7] = static_cast<char>(dice.roll(256));
  }
}

void change_one(std::vector<Segment>& segments, Dice& dice) {
  const std::size_t at = dice.roll(segments.size());
  const auto there = segments.begin() + static_cast<std::ptrdiff_t>(at);
  Segment& segment = segments[at];
  const auto frame = std::find_if(segments.begin(), segments.end(),
                                  [](const Segment& s) { return is_frame(s.marker); });
  switch (dice.roll(13)) {
    case 0:
    case 1:
    case 2:
      rearrange(segments, dice);
      break;
    case 3:
    case 4:
      segments.insert(there, other_segment(dice));
      break;
    case 5:
      if (frame != segments.end()) change_frame(*frame, dice);
      break;
    case 6:  // a second frame of another size
      if (frame != segments.end()) {
        Segment second = *frame;
        change_frame(second, dice);
        segments.insert(segments.begin() + static_cast<std::ptrdiff_t>(dice.roll(segments.size())),
                        std::move(second));
      }
      break;
    case 7:
      if (frame != segments.end()) frame->marker = static_cast<unsigned char>(0xc0 + dice.roll(16));
      break;
    case 8:
      segment.parameters = changed_bytes(segment.parameters, dice);
      break;
    case 9:
      segment.wrong_length = static_cast<int>(edge_number(dice) & 0xffff);
      break;
    case 10:
      segment.coded = changed_bytes(segment.coded, dice);
      break;
    case 11: {  // restart and fill bytes in the coded data
      const std::size_t place = dice.roll(segment.coded.size() + 1);
      const char more[2] = {'\xff', static_cast<char>(0xd0 + dice.roll(8))};
      segment.coded.insert(place, more, 2);
      break;
    }
    default:
      segment.coded.insert(0, dice.roll(4), '\xff');
  }
}

}  // namespace

bool is_jpeg(std::string_view bytes) { return bytes.substr(0, 2) == "\xff\xd8"; }

std::string mutated_jpeg(const std::string& input, Dice& dice) {
  std::vector<Segment> segments = segments_of(input);
  if (segments.empty()) return changed_bytes(input, dice);
  for (std::size_t n = 1 + dice.roll(3); n > 0; --n) change_one(segments, dice);
  return joined(segments);
}

}  // namespace versolay::fuzz
