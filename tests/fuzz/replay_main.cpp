// Feeds the files of the folders named to a harness, and each cut short at several places: the
// corpora as ordinary tests, without a fuzzer.
#include <cstdint>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

int main(int argc, char** argv) {
  int inputs = 0;
  for (int i = 1; i < argc; ++i) {
    for (const auto& entry : std::filesystem::directory_iterator(argv[i])) {
      std::ifstream in(entry.path(), std::ios::binary);
      const std::string bytes{std::istreambuf_iterator<char>(in), {}};
      const auto* data = reinterpret_cast<const std::uint8_t*>(bytes.data());
      for (std::size_t part = 0; part <= 8; ++part) {
        LLVMFuzzerTestOneInput(data, bytes.size() * part / 8);
        ++inputs;
      }
    }
  }
  std::printf("%d inputs replayed\n", inputs);
  return inputs > 0 ? 0 : 1;
}
