#include "imposition/page_reach.h"

#include "artwork/coded_image.h"
#include "imposition/art_reach.h"
#include "imposition/card_list.h"
#include "imposition/findings.h"
#include "imposition/shared_cuts.h"
#include "pdf/page_picture.h"
#include "profile/recommendation.h"

namespace versolay {
namespace {

constexpr double kLookPpi = 150.0;      // 0.17 mm, enough for an oversize
constexpr std::size_t kMostPages = 40;  // later pages are laid out the same way

}  // namespace

std::vector<NumberedPage> pages_of_backs(const std::filesystem::path& input,
                                         const std::optional<std::filesystem::path>& back,
                                         std::vector<int> numbers) {
  std::vector<NumberedPage> pages;
  if (back) {
    const ArtFile art = named_art(*back);
    const CodedImage image = read_coded_image(art.path, art.page);
    const bool cmyk_jpeg = image.coding == PixelCoding::jpeg && image.components == 4;
    if (!cmyk_jpeg) pages.emplace_back(2, read_raster(art.path, art.page));
    return pages;
  }
  if (numbers.empty()) {
    for (int page = 2; page <= 2 * static_cast<int>(kMostPages); page += 2) numbers.push_back(page);
  }
  for (const int number : numbers) {
    if (pages.size() >= kMostPages) break;
    auto picture = picture_of_page(input, number, kLookPpi);
    if (!picture) break;
    pages.emplace_back(number, std::move(*picture));
  }
  return pages;
}

PageReach page_reach(const PrinterProfile& profile, const GridRequest& cards,
                     std::optional<double> ppi, const std::vector<NumberedPage>& backs) {
  PageReach result;
  const Result<CardGrid> grid = fit_grid(cards);
  if (!grid) {
    result.warnings.push_back(grid.refusal());
    return result;
  }
  AdviceRequest request;
  request.grid = grid.value();
  if (ppi) request.ppi = *ppi;
  const Result<BareAdvice> advice = bare_advice(profile, request);
  if (!advice) {
    result.warnings.push_back(advice.refusal());
    return result;
  }
  result.oversize = advice.value().oversize;
  const Reach reach{result.oversize->x_mm, result.oversize->y_mm};
  const auto places = verso_places(request.grid, turn_axis(profile.turn, profile.paper), reach);
  result.shared_cuts = shared_cuts(profile, request, profile.mean, places, reach);
  for (const auto& [number, picture] : backs) {
    if (const auto end = early_end_of_art(picture, profile.paper, places)) {
      result.warnings.push_back(
          findings::art_ends_early(number, Length{end->reach_mm}, Length{end->wanted_mm}));
      break;  // the others are laid out the same way
    }
  }
  return result;
}

}  // namespace versolay
