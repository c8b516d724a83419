#include "app/own_pdf.h"

#include <algorithm>
#include <cmath>
#include <mutex>

#include "core/parallel.h"
#include "measure/side_reading.h"
#include "rehearse/page_renderer.h"
#include "words/findings.h"

namespace versolay {
namespace {

constexpr double kPpi = 300.0;         // the codes in the waste of a job have modules of 0.33 mm
constexpr double kMostMovedMm = 0.08;  // at a corner of the page: one pixel of the drawn page

struct DrawnPage {
  int number = 0;  // from 1
  SideReading reading;
  Affine<PageMm, PageMm> page_from_content;
};

/// How far the content of a page lies from where it should, at the corner that is worst off.
double moved_mm(const Paper& paper, const Affine<PageMm, PageMm>& page_from_content,
                const Affine<PageMm, PageMm>& wanted) {
  double most = 0.0;
  for (const double x : {-paper.width_mm / 2, paper.width_mm / 2}) {
    for (const double y : {-paper.height_mm / 2, paper.height_mm / 2}) {
      const Point<PageMm> corner{x, y};
      most = std::max(most, (page_from_content(corner).vec() - wanted(corner).vec()).norm());
    }
  }
  return most;
}

const Affine<PageMm, PageMm> kHalfTurn{-Eigen::Matrix2d::Identity(), Eigen::Vector2d::Zero()};

Result<DrawnPage> read_page(rehearse::PageRenderer& pages, const std::string& file, int number) {
  const auto raster = pages.page(number);
  Scan scan;
  scan.grey = {raster->width, raster->height, raster->ink};
  for (std::uint8_t& value : scan.grey.pixels) value = static_cast<std::uint8_t>(255 - value);
  scan.dpi_x = scan.dpi_y = kPpi;
  scan.file = file;
  scan.page = number;
  scan.pages = pages.page_count();
  Result<SideReading> side = read_side(scan);
  if (!side) return side.refusal();
  DrawnPage page{number, std::move(side).value(), {}};
  const Paper& paper = page.reading.identity.paper;
  const auto px_from_page = relabel_affine<ScanPx, PageMm>(
      rehearse::raster_from_page(paper.width_mm, paper.height_mm, kPpi));
  page.page_from_content = (page.reading.page_from_scan * px_from_page).inverse();
  return page;
}

Term term_of(OwnKind kind) { return Term{kind == OwnKind::target ? "target" : "job"}; }

/// Numbers of the pages that show the first pass of a sheet's front and back.
std::pair<int, int> pages_of_sheet(int index, int sheets, int passes) {
  if (passes == 1) return {2 * index + 1, 2 * index + 2};
  return {index + 1, sheets * passes + index + 1};
}

class Reader {
 public:
  Reader(const std::filesystem::path& pdf, OwnKind kind, const Progress& progress)
      : file_(pdf.filename().string()), kind_(kind), progress_(progress), pages_(pdf, kPpi) {}

  Result<OwnPdf> run() {
    Result<DrawnPage> first = read_page(pages_, file_, 1);
    if (!first) return findings::not_ours(file_, term_of(kind_));
    const SideReading& front = first.value().reading;
    const bool is_job = front.correction.has_value();
    if (is_job != (kind_ == OwnKind::job)) {
      return findings::not_this_kind(file_, term_of(kind_));
    }
    pdf_.identity = front.identity;
    if (front.identity.side == Side::verso) {
      return findings::begins_with_a_back(file_);
    }
    const int passes = front.identity.passes;
    if (kind_ == OwnKind::target && pages_.page_count() % (2 * passes) != 0) {
      return findings::pages_out_of_order(file_, pages_.page_count());
    }
    const int sheets = pages_.page_count() / (2 * passes);
    if (sheets == 0) return findings::pages_out_of_order(file_, pages_.page_count());
    read_the_rest(sheets);
    if (kind_ == OwnKind::job) leave_out_the_end();
    return judged();
  }

 private:
  struct PagePairRead {
    std::optional<DrawnPage> front;  // nullopt: nothing of ours was found on it
    std::optional<DrawnPage> back;
  };

  void read_the_rest(int sheets) {
    read_.resize(static_cast<std::size_t>(sheets));
    std::mutex mutex;
    int done = 0;
    for_each_item(2 * sheets, 1, 0, [&] {
      return [&](int item) {
        const int index = item / 2;
        const auto [front, back] = pages_of_sheet(index, sheets, pdf_.identity.passes);
        Result<DrawnPage> page = read_page(pages_, file_, item % 2 == 0 ? front : back);
        const std::scoped_lock lock(mutex);
        PagePairRead& pair = read_[static_cast<std::size_t>(index)];
        if (page) (item % 2 == 0 ? pair.front : pair.back) = std::move(page).value();
        tell(progress_, ++done, 2 * sheets, Term{"reading pages"});
      };
    });
  }

  void leave_out_the_end() {
    while (!read_.empty() && !read_.back().front && !read_.back().back) read_.pop_back();
  }

  Result<OwnPdf> judged() {
    const int sheets = static_cast<int>(read_.size());
    for (int i = 0; i < sheets; ++i) {
      const PagePairRead& pair = read_[static_cast<std::size_t>(i)];
      const auto [front, back] = pages_of_sheet(i, sheets, pdf_.identity.passes);
      if (!is_page(pair.front, Side::recto)) return findings::pages_out_of_order(file_, front);
      if (!is_page(pair.back, Side::verso)) return findings::pages_out_of_order(file_, back);
      const int number = pair.front->reading.identity.sheet;
      if (pair.back->reading.identity.sheet != number)
        return findings::pages_out_of_order(file_, back);

      OwnSheet sheet{number, pair.front->page_from_content.linear()(0, 0) < 0,
                     pair.back->reading.correction};
      const Affine<PageMm, PageMm> as_drawn =
          sheet.fed_round ? kHalfTurn : Affine<PageMm, PageMm>();
      const Affine<PageMm, PageMm> corrected = relabel_affine<PageMm, PageMm>(
          sheet.correction.value_or(Registration{}).landed_from_page());
      for (const auto& [page, wanted] :
           {std::pair{&*pair.front, as_drawn}, std::pair{&*pair.back, as_drawn * corrected}}) {
        const double moved = moved_mm(pdf_.identity.paper, page->page_from_content, wanted);
        if (moved > kMostMovedMm) {
          return findings::pages_moved(file_, page->number, Length{moved}, term_of(kind_));
        }
      }
      pdf_.sheets.push_back(sheet);
    }
    return std::move(pdf_);
  }

  bool is_page(const std::optional<DrawnPage>& page, Side side) const {
    if (!page) return false;
    PageIdentity expected = pdf_.identity;
    expected.side = side;
    expected.sheet = page->reading.identity.sheet;
    return page->reading.identity == expected;
  }

  std::string file_;
  OwnKind kind_;
  const Progress& progress_;
  rehearse::PageRenderer pages_;
  OwnPdf pdf_;
  std::vector<PagePairRead> read_;
};

}  // namespace

std::set<int> OwnPdf::fed_round() const {
  std::set<int> numbers;
  for (const OwnSheet& sheet : sheets) {
    if (sheet.fed_round) numbers.insert(sheet.number);
  }
  return numbers;
}

Result<OwnPdf> read_own_pdf(const std::filesystem::path& pdf, OwnKind kind,
                            const Progress& progress) {
  return Reader(pdf, kind, progress).run();
}

}  // namespace versolay
