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
#include <cctype>
#include <filesystem>
#include <iostream>
#include <opencv2/imgproc.hpp>
#include <stdexcept>

#include "artwork/raster.h"
#include "bird_art.h"
#include "core/csv.h"
#include "core/files.h"

namespace bird_deck {
namespace {

namespace fs = std::filesystem;

/// OpenCV writes no resolution into a PNG; the library's own writer does.
void save(const fs::path& path, const cv::Mat& bgr, double ppi) {
  versolay::Raster raster;
  raster.width_px = bgr.cols;
  raster.height_px = bgr.rows;
  raster.ppi_x = raster.ppi_y = ppi;
  raster.samples.reserve(static_cast<std::size_t>(bgr.cols) * bgr.rows * 3);
  for (int y = 0; y < bgr.rows; ++y) {
    for (int x = 0; x < bgr.cols; ++x) {
      const auto& pixel = bgr.at<cv::Vec3b>(y, x);
      for (const int channel : {2, 1, 0}) raster.samples.push_back(pixel[channel]);
    }
  }
  versolay::write_file_atomically(path, versolay::encode_png(raster), true);
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
    list += versolay::csv_line({bird.name, "1", file, "back-patterned.png", note}, ',') + "\n";
  }
  versolay::write_file_atomically(folder / "deck.csv", list, true);
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
