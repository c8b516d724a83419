// Hands the mutator of a harness to libFuzzer.
#include <algorithm>
#include <cstring>

#include "mutators/mutation.h"

extern "C" std::size_t LLVMFuzzerMutate(std::uint8_t* data, std::size_t size, std::size_t most);

namespace versolay::fuzz {

std::string changed_bytes(std::string bytes, Dice&) {
  const std::size_t size = bytes.size();
  bytes.resize(size + 64);
  bytes.resize(LLVMFuzzerMutate(reinterpret_cast<std::uint8_t*>(bytes.data()), size, bytes.size()));
  return bytes;
}

}  // namespace versolay::fuzz

extern "C" std::size_t LLVMFuzzerCustomMutator(std::uint8_t* data, std::size_t size,
                                               std::size_t most, unsigned seed) {
  versolay::fuzz::Dice dice(seed);
  const std::string input(reinterpret_cast<const char*>(data), size);
  const std::string output = versolay::fuzz::mutated(input, dice);
  const std::size_t length = std::min(output.size(), most);
  std::memcpy(data, output.data(), length);
  return length;
}
