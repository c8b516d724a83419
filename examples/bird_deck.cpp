// bird_deck FOLDER: draws the demo deck of the bird-watching club.
//
//   FOLDER/fronts/01-robin.png ...   18 fronts
//   FOLDER/back-bordered.png         a back with a plain edge colour and a frame
//   FOLDER/back-patterned.png        a back with a pattern from edge to edge
//   FOLDER/deck.csv                  a list of the cards, each with the patterned back
//   FOLDER/page-front.png, page-back.png   a whole A4 page of nine cards and its back, as somebody
//                                    would lay them out in a photo editor, for `versolay correct`
//
// Cards are 63 x 88 mm at 300 pixels per inch, with 2 mm of bleed on every side: 791 x 1087 px.
#include <png.h>

#include <cctype>
#include <cmath>
#include <csetjmp>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <opencv2/imgproc.hpp>
#include <stdexcept>

#include "bird_art.h"

namespace bird_deck {
namespace {

namespace fs = std::filesystem;

/// By libpng itself: OpenCV writes no resolution into a PNG.
void save(const fs::path& path, const cv::Mat& bgr, double ppi) {
  std::FILE* file = std::fopen(path.c_str(), "wb");
  png_struct* png = png_create_write_struct(PNG_LIBPNG_VER_STRING, nullptr, nullptr, nullptr);
  png_info* info = png_create_info_struct(png);
  if (file == nullptr || setjmp(png_jmpbuf(png)) != 0) {
    throw std::runtime_error("cannot write " + path.string());
  }
  png_init_io(png, file);
  png_set_IHDR(png, info, bgr.cols, bgr.rows, 8, PNG_COLOR_TYPE_RGB, PNG_INTERLACE_NONE,
               PNG_COMPRESSION_TYPE_DEFAULT, PNG_FILTER_TYPE_DEFAULT);
  const auto per_metre = static_cast<png_uint_32>(std::lround(ppi / 0.0254));
  png_set_pHYs(png, info, per_metre, per_metre, PNG_RESOLUTION_METER);
  png_write_info(png, info);
  png_set_bgr(png);
  for (int y = 0; y < bgr.rows; ++y) png_write_row(png, bgr.ptr(y));
  png_write_end(png, info);
  png_destroy_write_struct(&png, &info);
  std::fclose(file);
}

std::string file_name(int number, const std::string& name) {
  std::string text = (number < 10 ? "0" : "") + std::to_string(number) + "-" + name + ".png";
  for (char& c : text) c = c == ' ' ? '-' : static_cast<char>(std::tolower(c));
  return text;
}

/// Nine cards, edge to edge, in the middle of an A4 page.
cv::Mat nine_on_a_page(const CardFormat& format, const std::vector<cv::Mat>& cards) {
  const auto px = [&](double mm) { return cvRound(mm / 25.4 * format.ppi); };
  cv::Mat page(px(297), px(210), CV_8UC3, cv::Scalar::all(255));
  const cv::Size card(px(format.width_mm), px(format.height_mm));
  const cv::Rect trim(px(format.bleed_mm), px(format.bleed_mm), card.width, card.height);
  const cv::Point corner((page.cols - 3 * card.width) / 2, (page.rows - 3 * card.height) / 2);
  for (int i = 0; i < 9; ++i) {
    const cv::Point at = corner + cv::Point(i % 3 * card.width, i / 3 * card.height);
    cards[static_cast<std::size_t>(i) % cards.size()](trim).copyTo(page(cv::Rect(at, card)));
  }
  return page;
}

void make_deck(const fs::path& folder) {
  const CardFormat format;
  fs::create_directories(folder / "fronts");
  std::vector<cv::Mat> fronts;
  std::string list = "card,quantity,front,back,note\n";
  const int count = static_cast<int>(birds().size());
  for (int i = 0; i < count; ++i) {
    const Bird& bird = birds()[static_cast<std::size_t>(i)];
    fronts.push_back(draw_front(format, bird, i + 1, count));
    const std::string file = "fronts/" + file_name(i + 1, bird.name);
    save(folder / file, fronts.back(), format.ppi);
    const std::string note = std::to_string(i + 1) + " of " + std::to_string(count);
    list += bird.name + std::string(",1,") + file + ",back-patterned.png," + note + "\n";
  }
  std::ofstream(folder / "deck.csv") << list;
  const cv::Mat bordered = draw_bordered_back(format);
  save(folder / "back-bordered.png", bordered, format.ppi);
  save(folder / "back-patterned.png", draw_patterned_back(format), format.ppi);
  save(folder / "page-front.png", nine_on_a_page(format, fronts), format.ppi);
  save(folder / "page-back.png", nine_on_a_page(format, {bordered}), format.ppi);
  std::cout << count << " fronts, two backs, a list of the cards and a page of nine in "
            << folder.string() << "\n";
}

}  // namespace
}  // namespace bird_deck

int main(int argc, char** argv) {
  if (argc != 2) {
    std::cerr << "Usage: bird_deck FOLDER\n";
    return 2;
  }
  try {
    bird_deck::make_deck(argv[1]);
  } catch (const std::exception& e) {
    std::cerr << "bird_deck: " << e.what() << "\n";
    return 2;
  }
}
