#include "scan/pdf_pages.h"

#include <unistd.h>

#include <cstdlib>
#include <sstream>

#include "core/helper_process.h"
#include "core/numbers.h"
#include "core/stops_held.h"
#include "scan/decoders.h"
#include "scan/findings.h"

namespace versolay::scan {
namespace {

/// Of pdfinfo, and of pdfimages while it lists: they take a tenth of a second.
constexpr HelperLimits kLookingLimits{2, 500};

/// Of pdfimages while it unpacks. It writes TIFF files, which it does not compress: 4 megapixels of
/// a noisy scan take 0.06 s, and as a PNG file 2.1 s. JPEG 2000 takes 12 bytes a pixel, and ten
/// seconds for A3 at 1200 dpi.
HelperLimits unpacking_limits(std::int64_t pixels) {
  constexpr std::int64_t kMegapixel = 1'000'000;
  return {static_cast<int>(2 + pixels / (14 * kMegapixel)),
          static_cast<int>(500 + pixels * 12 / kMegapixel)};
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

}  // namespace

/// From the lines "Pages:  3" and "Page    2 size:  595.32 x 841.92 pts (A4)". The last of each is
/// pdfinfo's own: titles and other texts of the file, which may hold anything, come before them.
PdfFacts pdf_facts(const Place& place) {
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
  return facts;
}

/// One line of `pdfimages -list`: page num type width height color comp bpc enc interp object ID
/// x-ppi y-ppi size ratio. ("object ID" is one word for an inline image, so count from the end.)
std::vector<PdfPicture> pictures_on_pages(const Place& place, int first, int last) {
  std::istringstream lines(output_of(place, {"pdfimages", "-list", "-f", std::to_string(first),
                                             "-l", std::to_string(last), as_argument(place.path)}));
  std::vector<PdfPicture> pictures;
  for (std::string line; std::getline(lines, line);) {
    const std::vector<std::string> w = words_of(line);
    if (w.size() < 14 || !parse_integer(w[0])) continue;  // the heading
    pictures.push_back({.masked = w[2] != "image",
                        .cmyk = w[5] == "cmyk",
                        .width_px = parse_integer(w[3]).value_or(0),
                        .height_px = parse_integer(w[4]).value_or(0),
                        .components = parse_integer(w[6]).value_or(0),
                        .ppi_x = parse_number(w[w.size() - 4]).value_or(0.0),
                        .ppi_y = parse_number(w[w.size() - 3]).value_or(0.0)});
  }
  return pictures;
}

Scan decode_picture(const Place& place, const PdfPicture& picture, const ScanLimits& limits) {
  const TemporaryFolder folder(place);
  const std::string page = std::to_string(place.page);
  output_of(place,
            {"pdfimages", "-tiff", "-j", "-f", page, "-l", page, as_argument(place.path),
             (folder.path() / "page").string()},
            unpacking_limits(std::int64_t{picture.width_px} * picture.height_px));
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(folder.path())) {
    files.push_back(entry.path());
  }
  if (files.size() != 1) throw Error(place.text(), findings::scanned_pdf_not_unpacked());
  const InputFile file(files.front());
  return file.format() == Format::tiff ? decode_tiff(file, place, limits, Hints::ignore)
                                       : decode_jpeg(file, place, limits, Hints::ignore);
}

}  // namespace versolay::scan
