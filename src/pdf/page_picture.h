// A page of a PDF as a picture, drawn by the installed renderer.
#pragma once

#include <filesystem>
#include <optional>

#include "artwork/raster.h"

namespace versolay {

/// The page in grey, as it is shown. nullopt: poppler's pdftoppm is not installed, or could not
/// draw the page within its limits.
/// @param page  from 1
std::optional<Raster> picture_of_page(const std::filesystem::path& pdf, int page, double ppi);

}  // namespace versolay
