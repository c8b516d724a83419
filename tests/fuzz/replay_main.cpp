// Feeds the files of the folders named to a harness: each whole, cut short at several places, and
// mutated by its structure with fixed seeds. The corpora as ordinary tests, without a fuzzer.
#include <algorithm>
#include <cstdint>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

#include "mutators/mutation.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace versolay::fuzz {

std::string changed_bytes(std::string bytes, Dice& dice) {
  if (bytes.empty()) return "x";
  const std::size_t at = dice.roll(bytes.size());
  switch (dice.roll(3)) {
    case 0:
      bytes[at] = static_cast<char>(dice.roll(256));
      break;
    case 1:
      bytes.insert(at, 1, static_cast<char>(dice.roll(256)));
      break;
    default:
      bytes.erase(at, 1 + dice.roll(4));
  }
  return bytes;
}

}  // namespace versolay::fuzz

namespace {

constexpr unsigned kMutationsOfEach = 200;

void feed(const std::string& bytes, std::size_t size) {
  LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(bytes.data()), size);
}

std::string content(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

}  // namespace

int main(int argc, char** argv) {
  int inputs = 0;
  for (int i = 1; i < argc; ++i) {
    std::vector<std::filesystem::path> files;
    for (const auto& entry : std::filesystem::directory_iterator(argv[i])) {
      files.push_back(entry.path());
    }
    std::sort(files.begin(), files.end());  // the same mutations everywhere
    for (const auto& file : files) {
      const std::string bytes = content(file);
      for (std::size_t part = 0; part <= 8; ++part) feed(bytes, bytes.size() * part / 8);
      for (unsigned n = 0; n < kMutationsOfEach; ++n) {
        versolay::fuzz::Dice dice(static_cast<unsigned>(inputs) * kMutationsOfEach + n);
        const std::string changed = versolay::fuzz::mutated(bytes, dice);
        feed(changed, changed.size());
      }
      ++inputs;
    }
  }
  std::printf("%d files replayed\n", inputs);
  return inputs > 0 ? 0 : 1;
}
