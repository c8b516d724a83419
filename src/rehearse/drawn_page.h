// What a renderer has drawn, read from its file.
#pragma once

#include <filesystem>

#include "rehearse/page_raster.h"

namespace versolay::rehearse {

/// An 8-bit grey TIFF (of pdftocairo) or a binary PGM (of mutool), for files that the renderer has
/// just made, not for pictures by others. Black becomes ink.
/// Throws Error when the file is anything else or incomplete.
PageRaster read_drawn_page(const std::filesystem::path& path, double ppi);

}  // namespace versolay::rehearse
