// How far the backs on pages that were laid out elsewhere must reach, and whether they do.
#pragma once

#include <filesystem>
#include <optional>
#include <utility>
#include <vector>

#include "artwork/raster.h"
#include "layout/grid.h"
#include "versolay/advice.h"
#include "versolay/printer_profile.h"
#include "versolay/result.h"

namespace versolay {

using NumberedPage = std::pair<int, Raster>;  // number of the page, from 1

/// The pages of backs, before they are corrected: of the picture `back`, or of the PDF `input`
/// (`numbers`; none: 2, 4, 6, ..., at most 40). None where no renderer is installed, and of a JPEG
/// in CMYK.
std::vector<NumberedPage> pages_of_backs(const std::filesystem::path& input,
                                         const std::optional<std::filesystem::path>& back,
                                         std::vector<int> numbers);

struct PageReach {
  std::optional<Oversize> oversize;       // nullopt: see warnings
  std::optional<SharedCuts> shared_cuts;  // where the pages leave less room between cards
  Notices warnings;                       // with art_ends_early for the first page that is short
};

/// @param ppi  of the pages; nullopt: the usual 300.
PageReach page_reach(const PrinterProfile& profile, const GridRequest& cards,
                     std::optional<double> ppi, const std::vector<NumberedPage>& backs);

}  // namespace versolay
