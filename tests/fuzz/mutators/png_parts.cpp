#include "mutators/png_parts.h"

#include <zlib.h>

#include <algorithm>
#include <utility>

namespace versolay::fuzz {
namespace {

constexpr std::string_view kSignature("\x89PNG\r\n\x1a\n", 8);

struct Chunk {
  std::string type;
  std::string data;
  bool wrong_sum = false;
  std::uint32_t wrong_length = 0;  // 0: the right one is written
};

std::string big_endian(std::uint32_t value) {
  std::string bytes;
  for (int shift = 24; shift >= 0; shift -= 8) bytes += static_cast<char>(value >> shift & 0xff);
  return bytes;
}

std::vector<Chunk> chunks_of(std::string_view rest) {
  std::vector<Chunk> chunks;
  while (rest.size() >= 12) {
    std::uint32_t length = 0;
    for (std::size_t i = 0; i < 4; ++i) length = length << 8 | static_cast<unsigned char>(rest[i]);
    length = static_cast<std::uint32_t>(std::min<std::size_t>(length, rest.size() - 12));
    chunks.push_back({std::string(rest.substr(4, 4)), std::string(rest.substr(8, length))});
    rest.remove_prefix(12 + length);
  }
  return chunks;
}

std::string joined(const std::vector<Chunk>& chunks) {
  std::string file(kSignature);
  for (const Chunk& c : chunks) {
    const std::string body = c.type + c.data;
    auto sum = static_cast<std::uint32_t>(
        crc32(0, reinterpret_cast<const Bytef*>(body.data()), static_cast<uInt>(body.size())));
    if (c.wrong_sum) sum ^= 1;
    file += big_endian(c.wrong_length != 0 ? c.wrong_length
                                           : static_cast<std::uint32_t>(c.data.size()));
    file += body + big_endian(sum);
  }
  return file;
}

std::string deflated(const std::string& raw) {
  uLongf size = compressBound(static_cast<uLong>(raw.size()));
  std::string packed(size, '\0');
  compress2(reinterpret_cast<Bytef*>(packed.data()), &size,
            reinterpret_cast<const Bytef*>(raw.data()), static_cast<uLong>(raw.size()), 1);
  packed.resize(size);
  return packed;
}

/// The first megabyte at most.
std::string inflated(const std::string& packed) {
  std::string raw(1 << 20, '\0');
  auto size = static_cast<uLongf>(raw.size());
  uncompress(reinterpret_cast<Bytef*>(raw.data()), &size,
             reinterpret_cast<const Bytef*>(packed.data()), static_cast<uLong>(packed.size()));
  raw.resize(std::min<std::size_t>(size, raw.size()));
  return raw;
}

Chunk header(Dice& dice) {
  static constexpr std::array<char, 5> kDepths = {1, 2, 4, 8, 16};
  static constexpr std::array<char, 5> kColours = {0, 2, 3, 4, 6};
  std::string data = big_endian(dice.one_in(3) ? edge_number(dice)
                                               : static_cast<std::uint32_t>(1 + dice.roll(40)));
  data += big_endian(dice.one_in(3) ? edge_number(dice)
                                    : static_cast<std::uint32_t>(1 + dice.roll(40)));
  data += dice.pick(kDepths);
  data += dice.pick(kColours);
  data += std::string(2, '\0');
  data += static_cast<char>(dice.roll(2));
  return {"IHDR", data};
}

Chunk other_chunk(Dice& dice) {
  static const std::vector<std::string> kTypes = {
      "PLTE", "IDAT", "IEND", "tRNS", "gAMA", "cHRM", "sRGB", "iCCP", "pHYs",
      "eXIf", "tEXt", "zTXt", "iTXt", "bKGD", "sBIT", "hIST", "sPLT", "tIME",
      "acTL", "fcTL", "fdAT", "cICP", "mDCv", "aBCd", "ABCD", "abcd", "ID@T"};
  std::string type = dice.pick(kTypes);
  if (type == "eXIf") {
    std::string exif("II\x2a\0\x08\0\0\0\x01\0\x12\x01\x03\0\x01\0\0\0?\0\0\0\0\0\0\0", 26);
    exif[18] = static_cast<char>(dice.roll(11));
    return {type, exif};
  }
  return {type, some_bytes(dice)};
}

void change_one(std::vector<Chunk>& chunks, Dice& dice) {
  const std::size_t at = dice.roll(chunks.size());
  const auto there = chunks.begin() + static_cast<std::ptrdiff_t>(at);
  Chunk& chunk = chunks[at];
  switch (dice.roll(13)) {
    case 0:
    case 1:
    case 2:
      rearrange(chunks, dice);
      break;
    case 3:
      chunks.insert(there, other_chunk(dice));
      break;
    case 4:
      chunks.insert(there, header(dice));
      break;
    case 5:
      if (chunks.front().data.size() == 13) {  // one field of the header
        static constexpr std::array<std::size_t, 7> kStarts = {0, 4, 8, 9, 10, 11, 12};
        const std::size_t start = dice.pick(kStarts);
        std::string& fields = chunks.front().data;
        if (start < 8) {
          fields.replace(start, 4, big_endian(edge_number(dice)));
        } else {
          fields[start] = static_cast<char>(dice.roll(18));
        }
      }
      break;
    case 6:
    case 7:
      chunk.data = changed_bytes(chunk.data, dice);
      break;
    case 8:
      chunk.data.resize(dice.roll(2 * chunk.data.size() + 2));
      break;
    case 9: {  // rows unpacked, changed and packed again
      std::string raw = changed_bytes(inflated(chunk.data), dice);
      if (dice.one_in(4)) raw.resize(raw.size() * dice.roll(4));
      chunk.data = deflated(raw);
      break;
    }
    case 10:
      chunk.wrong_sum = true;
      break;
    case 11:
      chunk.wrong_length = edge_number(dice);
      break;
    default: {  // the rows in two chunks
      const std::size_t cut = dice.roll(chunk.data.size() + 1);
      Chunk rest{chunk.type, chunk.data.substr(cut)};
      chunk.data.resize(cut);
      chunks.insert(there + 1, std::move(rest));
    }
  }
}

}  // namespace

bool is_png(std::string_view bytes) { return bytes.substr(0, 8) == kSignature; }

std::string mutated_png(const std::string& input, Dice& dice) {
  std::vector<Chunk> chunks = chunks_of(std::string_view(input).substr(8));
  if (chunks.empty()) chunks.push_back(header(dice));
  for (std::size_t n = 1 + dice.roll(3); n > 0; --n) change_one(chunks, dice);
  return joined(chunks);
}

}  // namespace versolay::fuzz
