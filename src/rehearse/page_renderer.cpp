#include "rehearse/page_renderer.h"

#include <atomic>

#include "core/numbers.h"
#include "rehearse/drawn_page.h"
#include "rehearse/findings.h"
#include "versolay/result.h"

namespace versolay::rehearse {
namespace {

constexpr std::size_t kPagesKept = 6;

RendererProgram installed(RendererProgram wanted) {
  const bool cairo = program_exists("pdftocairo");
  const bool mutool = program_exists("mutool");
  if (wanted != RendererProgram::mutool && cairo) return RendererProgram::pdftocairo;
  if (wanted != RendererProgram::pdftocairo && mutool) return RendererProgram::mutool;
  if (wanted == RendererProgram::mutool) throw Error("mutool", findings::mupdf_missing());
  throw Error("pdftocairo", findings::poppler_missing());
}

std::string last_line(const std::string& text) {
  const std::size_t end = text.find_last_not_of("\r\n ");
  if (end == std::string::npos) return "no message";
  const std::size_t start = text.find_last_of('\n', end);
  return text.substr(start == std::string::npos ? 0 : start + 1,
                     end - (start == std::string::npos ? 0 : start + 1) + 1);
}

}  // namespace

PageRenderer::PageRenderer(std::filesystem::path pdf, double ppi, RendererProgram program)
    : pdf_(std::move(pdf)), ppi_(ppi), program_(installed(program)) {
  if (!std::filesystem::is_regular_file(pdf_)) throw Error(pdf_.string(), findings::not_a_file());
  page_count_ = count_pages();
}

std::string PageRenderer::program_name() const {
  return program_ == RendererProgram::pdftocairo ? "pdftocairo" : "mutool";
}

int PageRenderer::count_pages() const {
  const bool poppler = program_ == RendererProgram::pdftocairo;
  const std::vector<std::string> words =
      poppler ? std::vector<std::string>{"pdfinfo", pdf_.string()}
              : std::vector<std::string>{"mutool", "info", pdf_.string()};
  const ProgramResult result = run_program(words, scratch_.path());
  const std::size_t key = result.output.find("Pages:");
  if (result.exit_code == 0 && key != std::string::npos) {
    const std::size_t start = result.output.find_first_of("0123456789", key);
    const std::size_t end = result.output.find_first_not_of("0123456789", start);
    if (const auto pages = parse_integer(result.output.substr(start, end - start))) return *pages;
  }
  throw Error(pdf_.string(), findings::pdf_not_drawable(words.front(), last_line(result.output)));
}

std::shared_ptr<const PageRaster> PageRenderer::page(int number) {
  std::promise<std::shared_ptr<const PageRaster>> promise;
  {
    std::unique_lock lock(mutex_);
    if (const auto found = cache_.find(number); found != cache_.end()) {
      found->second.last_used = ++uses_;
      const Shared raster = found->second.raster;
      lock.unlock();
      return raster.get();
    }
    if (cache_.size() >= kPagesKept) forget_oldest();
    cache_[number] = {promise.get_future().share(), ++uses_};
  }
  try {
    auto raster = std::make_shared<const PageRaster>(render(number));
    promise.set_value(raster);
    return raster;
  } catch (...) {
    promise.set_exception(std::current_exception());
    throw;
  }
}

void PageRenderer::forget_oldest() {
  auto oldest = cache_.begin();
  for (auto it = cache_.begin(); it != cache_.end(); ++it) {
    if (it->second.last_used < oldest->second.last_used) oldest = it;
  }
  cache_.erase(oldest);
}

PageRaster PageRenderer::render(int number) const {
  const std::string page = std::to_string(number);
  const std::string resolution = format_number(ppi_, 4);
  static std::atomic<int> rendered{0};  // two threads may draw the same page
  const std::filesystem::path stem = scratch_.path() / ("page-" + std::to_string(rendered++));
  std::filesystem::path image = stem;
  std::vector<std::string> words;
  if (program_ == RendererProgram::pdftocairo) {
    // TIFF without compression: half the time of a PNG.
    image += ".tif";
    words = {"pdftocairo", "-tiff",       "-gray", "-tiffcompression",
             "none",       "-singlefile", "-r",    resolution,
             "-f",         page,          "-l",    page,
             pdf_,         stem};
  } else {
    image += ".pgm";
    words = {"mutool", "draw",     "-q", "-c",  "gray", "-F", "pgm",
             "-r",     resolution, "-o", image, pdf_,   page};
  }
  const ProgramResult result = run_program(words, scratch_.path());
  if (result.exit_code != 0 || !std::filesystem::exists(image)) {
    throw Error(pdf_.string(),
                findings::page_not_drawn(number, words.front(), last_line(result.output)));
  }
  PageRaster raster = read_drawn_page(image, ppi_);
  std::filesystem::remove(image);
  return raster;
}

}  // namespace versolay::rehearse
