// json_value [POINTER...] < TEXT: checks that the text is exactly one JSON document, and prints the
// values at the JSON Pointers (RFC 6901), one a line. Exit 1 when it is not, or a place is missing.
#include <iostream>
#include <iterator>
#include <nlohmann/json.hpp>

int main(int argc, char** argv) {
  try {
    const std::string text{std::istreambuf_iterator<char>(std::cin), {}};
    const auto document = nlohmann::json::parse(text);
    for (int i = 1; i < argc; ++i) {
      const auto& value = document.at(nlohmann::json::json_pointer(argv[i]));
      std::cout << (value.is_string() ? value.get<std::string>() : value.dump()) << "\n";
    }
  } catch (const nlohmann::json::exception& e) {
    std::cerr << e.what() << "\n";
    return 1;
  }
}
