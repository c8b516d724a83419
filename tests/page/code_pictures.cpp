// code_pictures FOLDER: pictures of codes as scans show them, and what the native reader makes of
// them, for tests/page/codes_test.mjs. Writes <n>.grey (bytes, row by row) and pictures.json.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iostream>
#include <numbers>
#include <random>

#include "core/files.h"
#include "core/json.h"
#include "measure/code_reader.h"
#include "target/data_matrix.h"
#include "target/qr_code.h"

namespace {

using namespace versolay;

/// How a code was printed and scanned.
struct Seen {
  double px_per_module = 5.0;
  double turned_rad = 0.0;
  double blur_px = 0.0;  // side of the box that each pixel averages
  double noise = 0.0;    // standard deviation, grey values
  double black = 20.0;   // grey values
  double white = 240.0;
  double dirt_modules = 0.0;  // radius of a black spot
};

/// Grey value of the code's plane at a place in modules from the code's middle.
double grey_at(const ModuleGrid& code, const Seen& seen, double x, double y, double spot_x,
               double spot_y) {
  if (std::hypot(x - spot_x, y - spot_y) < seen.dirt_modules) return seen.black;
  const int column = static_cast<int>(std::floor(x + code.columns / 2.0));
  const int row = static_cast<int>(std::floor(y + code.rows / 2.0));
  const bool inside = column >= 0 && column < code.columns && row >= 0 && row < code.rows;
  return inside && code.at(row, column) ? seen.black : seen.white;
}

GreyImage picture_of(const ModuleGrid& code, const Seen& seen, std::mt19937& random) {
  constexpr double kMargin = 3.0;  // modules
  constexpr int kSamples = 4;      // a pixel and direction
  const double reach = std::hypot(code.columns, code.rows) / 2.0;
  const double half_x =
      std::min(reach, code.columns / 2.0 + reach * std::abs(std::sin(seen.turned_rad)));
  const double half_y =
      std::min(reach, code.rows / 2.0 + reach * std::abs(std::sin(seen.turned_rad)));
  GreyImage picture;
  picture.width = static_cast<int>(2 * (half_x + kMargin) * seen.px_per_module);
  picture.height = static_cast<int>(2 * (half_y + kMargin) * seen.px_per_module);
  std::uniform_real_distribution<double> anywhere(-0.3, 0.3);
  const double spot_x = anywhere(random) * code.columns;
  const double spot_y = anywhere(random) * code.rows;
  std::normal_distribution<double> noise(0.0, std::max(seen.noise, 1e-9));
  const double c = std::cos(seen.turned_rad);
  const double s = std::sin(seen.turned_rad);
  const double side = std::max(1.0, seen.blur_px);
  for (int y = 0; y < picture.height; ++y) {
    for (int x = 0; x < picture.width; ++x) {
      double sum = 0.0;
      for (int i = 0; i < kSamples * kSamples; ++i) {
        const double px = x + 0.5 + ((i % kSamples + 0.5) / kSamples - 0.5) * side;
        const double py = y + 0.5 + ((i / kSamples + 0.5) / kSamples - 0.5) * side;
        const double u = (px - picture.width / 2.0) / seen.px_per_module;
        const double v = (py - picture.height / 2.0) / seen.px_per_module;
        sum += grey_at(code, seen, c * u + s * v, -s * u + c * v, spot_x, spot_y);
      }
      const double grey = sum / (kSamples * kSamples) + noise(random);
      picture.pixels.push_back(static_cast<std::uint8_t>(std::clamp(std::lround(grey), 0l, 255l)));
    }
  }
  return picture;
}

std::string random_text(std::mt19937& random, const std::string& alphabet, std::size_t length) {
  std::uniform_int_distribution<std::size_t> pick(0, alphabet.size() - 1);
  std::string text;
  while (text.size() < length) text += alphabet[pick(random)];
  return text;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 2) {
    std::cerr << "code_pictures FOLDER\n";
    return 2;
  }
  const std::filesystem::path folder = argv[1];
  make_folder(folder);
  std::mt19937 random(1);
  const auto between = [&](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
  };
  Json pictures = Json::array();
  constexpr int kEach = 200;
  for (int n = 0; n < 2 * kEach; ++n) {
    const bool qr = n < kEach;
    const std::string text = qr ? "V" + random_text(random, "ABCDEFGHJKLMNPQRSTUVWXYZ23456789/", 24)
                                : random_text(random, "0123456789", 62);
    Seen seen;
    seen.px_per_module = between(2.5, 9.0);
    seen.turned_rad = between(-0.05, 0.05);
    if (qr) seen.turned_rad += std::numbers::pi / 2 * static_cast<int>(between(0, 4));
    seen.blur_px = between(1.0, 0.8 * seen.px_per_module);
    seen.noise = between(0.0, 15.0);
    seen.black = between(10.0, 90.0);
    seen.white = between(170.0, 250.0);
    if (n % 3 == 0) seen.dirt_modules = between(0.5, 2.0);
    const GreyImage picture =
        picture_of(qr ? qr_modules(text) : data_matrix_modules(text), seen, random);
    const auto read = text_of_code(picture, qr ? CodeKind::qr : CodeKind::data_matrix);
    const std::string file = fmt::format("{}.grey", n);
    write_file_atomically(folder / file, std::string(picture.pixels.begin(), picture.pixels.end()),
                          true);
    pictures.push_back({{"file", file},
                        {"format", qr ? "QRCode" : "DataMatrix"},
                        {"width", picture.width},
                        {"height", picture.height},
                        {"printed", text},
                        {"read", read ? Json(*read) : Json(nullptr)}});
  }
  write_file_atomically(folder / "pictures.json", to_text(pictures), true);
  return 0;
}
