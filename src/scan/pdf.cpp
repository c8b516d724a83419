// PDF files of scanned pages: the one picture of a page, in the pixels of the scanner.
//
// A page is never rendered: a renderer resamples, and that moves marks by a fair part of a pixel.
// The programs pdfinfo and pdfimages of Poppler take the picture out as it is; JPEG data are copied
// byte for byte, everything else is unpacked without loss.
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <sstream>
#include <string_view>

#include "core/numbers.h"
#include "scan/decoders.h"
#include "scan/findings.h"
#include "scan/helper_process.h"
#include "scan/stops_held.h"

namespace versolay::scan {
namespace {

constexpr int kMostPages = 1000;
constexpr int kPagesLookedAt = 20;  // of a file that may hold no scans at all; 45 ms each

/// Of pdfinfo, and of pdfimages while it lists: they take a tenth of a second.
constexpr HelperLimits kLookingLimits{2, 500};

/// Of pdfimages while it unpacks: A3 at 1200 dpi takes ten seconds; JPEG 2000 takes 12 bytes a
/// pixel.
HelperLimits unpacking_limits(std::int64_t pixels) {
  constexpr std::int64_t kMegapixel = 1'000'000;
  return {static_cast<int>(2 + pixels / (14 * kMegapixel)),
          static_cast<int>(500 + pixels * 12 / kMegapixel)};
}

constexpr double kLeastCover = 0.9;  // of the page's width and height

/// The last line of a PDF is "%%EOF"; readers look for it in the last 1024 bytes.
/// Source  ISO 32000-1:2008, 7.5.5, and the implementation note to it in the PDF Reference 1.7,
/// H.3.
bool has_end_mark(const InputFile& file) {
  std::array<char, 1024> end;
  const std::int64_t n = std::min<std::int64_t>(file.size(), end.size());
  if (std::fseek(file.handle(), static_cast<long>(-n), SEEK_END) != 0) return false;
  const std::size_t read = std::fread(end.data(), 1, static_cast<std::size_t>(n), file.handle());
  std::rewind(file.handle());
  return std::string_view(end.data(), read).find("%%EOF") != std::string_view::npos;
}

/// An option is what starts with '-': a file may, too.
std::string as_argument(const std::filesystem::path& path) {
  const std::string text = path.string();
  return text.starts_with('-') ? "./" + text : text;
}

std::string output_of(const Place& place, const std::vector<std::string>& arguments,
                      const HelperLimits& limits = kLookingLimits) {
  const HelperResult result = run_helper(arguments, limits);
  if (!result.found) {
    throw Error(place.text(), findings::program_missing(arguments[0]));
  }
  if (!result.finished) {
    throw Error(place.text(),
                findings::scanned_pdf_beyond_limits(limits.seconds, limits.megabytes));
  }
  if (result.exit_code != 0) {
    throw Error(place.text(), findings::scanned_pdf_damaged());
  }
  // Poppler mends what it can and fills up what is missing; here that is damage.
  for (const char* complaint : {"Syntax Error", "I/O Error", "Internal Error"}) {
    const std::size_t start = result.output.find(complaint);
    if (start == std::string::npos) continue;
    throw damaged(place, result.output.substr(start, result.output.find('\n', start) - start));
  }
  return result.output;
}

std::vector<std::string> words_of(const std::string& line) {
  std::istringstream in(line);
  std::vector<std::string> words;
  for (std::string w; in >> w;) words.push_back(w);
  return words;
}

struct PageSize {
  double width_pt = 0.0;
  double height_pt = 0.0;
};

struct PdfFacts {
  int pages = 0;
  PageSize size;  // of the page that was asked for
};

/// From the lines "Pages:  3" and "Page    2 size:  595.32 x 841.92 pts (A4)". The last of each is
/// pdfinfo's own: titles and other texts of the file, which may hold anything, come before them.
PdfFacts facts_of(const Place& place) {
  const std::string page = std::to_string(place.page);
  std::istringstream lines(
      output_of(place, {"pdfinfo", "-f", page, "-l", page, as_argument(place.path)}));
  PdfFacts facts;
  for (std::string line; std::getline(lines, line);) {
    const std::vector<std::string> w = words_of(line);
    if (w.size() == 2 && w[0] == "Pages:") facts.pages = parse_integer(w[1]).value_or(0);
    if (w.size() >= 6 && w[0] == "Page" && w[2] == "size:") {
      facts.size = {parse_number(w[3]).value_or(0.0), parse_number(w[5]).value_or(0.0)};
    }
  }
  if (facts.pages <= 0) throw Error(place.text(), findings::scanned_pdf_without_pages());
  if (facts.pages > kMostPages) {
    throw Error(place.text(), findings::scanned_pdf_too_long(facts.pages, kMostPages));
  }
  return facts;
}

/// One line of `pdfimages -list`: page num type width height color comp bpc enc interp object ID
/// x-ppi y-ppi size ratio. ("object ID" is one word for an inline image, so count from the end.)
struct Picture {
  std::string type;
  int width = 0;
  int height = 0;
  std::string colours;
  int components = 0;
  double ppi_x = 0.0;  // whole numbers
  double ppi_y = 0.0;
};

std::vector<Picture> pictures_on(const Place& place, int first, int last) {
  std::istringstream lines(output_of(place, {"pdfimages", "-list", "-f", std::to_string(first),
                                             "-l", std::to_string(last), as_argument(place.path)}));
  std::vector<Picture> pictures;
  for (std::string line; std::getline(lines, line);) {
    const std::vector<std::string> w = words_of(line);
    if (w.size() < 14 || !parse_integer(w[0])) continue;  // the heading
    pictures.push_back({w[2], parse_integer(w[3]).value_or(0), parse_integer(w[4]).value_or(0),
                        w[5], parse_integer(w[6]).value_or(0),
                        parse_number(w[w.size() - 4]).value_or(0.0),
                        parse_number(w[w.size() - 3]).value_or(0.0)});
  }
  return pictures;
}

Picture only_picture(const Place& place) {
  const std::vector<Picture> pictures = pictures_on(place, place.page, place.page);
  if (pictures.empty()) throw Error(place.text(), findings::scanned_page_empty());
  if (pictures.size() > 1) {
    throw Error(place.text(),
                findings::scanned_page_of_pictures(static_cast<std::int64_t>(pictures.size())));
  }
  const Picture& p = pictures.front();
  if (p.type != "image") throw Error(place.text(), findings::scanned_page_masked());
  if (p.colours == "cmyk" || p.components == 4) {
    throw Error(place.text(), findings::scan_in_cmyk());
  }
  return p;
}

/// The resolution of a picture that fills the page; throws Error when it does not.
void set_page_resolution(Scan& scan, const Place& place, const Picture& picture,
                         const PageSize& page) {
  if (!(page.width_pt > 0.0 && page.height_pt > 0.0)) {
    throw Error(place.text(), findings::scanned_pdf_without_page_size());
  }
  if (picture.ppi_x <= 0.0 || picture.ppi_y <= 0.0) return;
  // Along the rows and columns of the picture, which may lie sideways on the page.
  const double across_pt = picture.width * kPtPerInch / picture.ppi_x;
  const double down_pt = picture.height * kPtPerInch / picture.ppi_y;
  const bool sideways = (across_pt > down_pt) != (page.width_pt > page.height_pt);
  const double page_across = sideways ? page.height_pt : page.width_pt;
  const double page_down = sideways ? page.width_pt : page.height_pt;
  if (across_pt < kLeastCover * page_across || down_pt < kLeastCover * page_down) {
    throw Error(place.text(), findings::scanned_page_partly_covered(Share{across_pt / page_across},
                                                                    Share{down_pt / page_down}));
  }
  // ppi_x is rounded; the size of the page tells it exactly when the picture fits the page.
  const auto refined = [](double rounded, int pixels, double pt) {
    const double exact = pixels * kPtPerInch / pt;
    return std::abs(exact - rounded) <= 0.51 ? exact : rounded;
  };
  set_dpi(scan, refined(picture.ppi_x, picture.width, page_across),
          refined(picture.ppi_y, picture.height, page_down));
}

class TemporaryFolder {
 public:
  explicit TemporaryFolder(const Place& place) {
    if (stop_was_asked()) throw Error(place.text(), findings::reading_stopped());
    std::error_code error;
    std::string name = (std::filesystem::temp_directory_path(error) / "versolay-XXXXXX").string();
    if (error || mkdtemp(name.data()) == nullptr) {
      throw Error(place.text(), findings::no_temporary_folder());
    }
    path_ = name;
  }
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  ~TemporaryFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  const std::filesystem::path& path() const { return path_; }

 private:
  StopsHeld held_;  // after the folder is gone, a stop that was asked for takes place
  std::filesystem::path path_;
};

std::filesystem::path extract(const Place& place, const Picture& picture,
                              const TemporaryFolder& folder) {
  const std::string page = std::to_string(place.page);
  output_of(place,
            {"pdfimages", "-png", "-j", "-f", page, "-l", page, as_argument(place.path),
             (folder.path() / "page").string()},
            unpacking_limits(std::int64_t{picture.width} * picture.height));
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(folder.path())) {
    files.push_back(entry.path());
  }
  if (files.size() != 1) throw Error(place.text(), findings::scanned_pdf_not_unpacked());
  return files.front();
}

}  // namespace

int count_pdf_pages(const InputFile& file, const Place& place) {
  if (!has_end_mark(file)) throw Error(place.text(), findings::scanned_pdf_without_end());
  const int pages = facts_of(place).pages;
  const int looked_at = std::min(pages, kPagesLookedAt);
  if (pages > 1 && pictures_on(place, 1, looked_at).empty()) {
    throw Error(place.text(), findings::scanned_pdf_without_pictures(looked_at));
  }
  return pages;
}

Scan decode_pdf(const InputFile& pdf, Place place, const ScanLimits& limits) {
  if (!has_end_mark(pdf)) throw Error(place.text(), findings::scanned_pdf_without_end());
  const PdfFacts facts = facts_of({place.path});
  place.pages = facts.pages;
  check_page(place);
  const Picture picture = only_picture(place);
  check_size(place, picture.width, picture.height, 8 * std::max(picture.components, 1), limits);

  const TemporaryFolder folder(place);
  const InputFile file(extract(place, picture, folder));
  Scan scan = file.format() == Format::png ? decode_png(file, place, limits, Hints::ignore)
                                           : decode_jpeg(file, place, limits, Hints::ignore);
  if (scan.grey.width != picture.width || scan.grey.height != picture.height) {
    throw Error(place.text(), findings::scanned_pdf_picture_differs());
  }
  set_page_resolution(scan, place, picture, place.page == 1 ? facts.size : facts_of(place).size);
  return scan;
}

}  // namespace versolay::scan
