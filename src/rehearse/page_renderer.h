// Pages of a PDF as rasters, drawn by a renderer that shares no code with the program that wrote
// the PDF.
#pragma once

#include <filesystem>
#include <future>
#include <map>
#include <memory>
#include <mutex>

#include "rehearse/page_raster.h"
#include "rehearse/program.h"

namespace versolay::rehearse {

enum class RendererProgram { automatic, pdftocairo, mutool };

/// Renders pages on demand, each once while it stays in a small cache. Safe to use from several
/// threads. The page's media box is drawn, anti-aliased, its upper-left corner at the raster's.
class PageRenderer {
 public:
  /// Throws Error when no renderer is installed (naming the Debian package), or when the PDF
  /// cannot be read.
  PageRenderer(std::filesystem::path pdf, double ppi,
               RendererProgram program = RendererProgram::automatic);

  int page_count() const { return page_count_; }
  std::string program_name() const;
  /// Page `number`, counted from 1. Throws Error when the renderer fails.
  std::shared_ptr<const PageRaster> page(int number);

 private:
  using Shared = std::shared_future<std::shared_ptr<const PageRaster>>;
  struct Entry {
    Shared raster;
    long last_used = 0;
  };

  PageRaster render(int number) const;
  int count_pages() const;
  void forget_oldest();

  std::filesystem::path pdf_;
  double ppi_;
  RendererProgram program_;
  TemporaryFolder scratch_;
  int page_count_ = 0;
  std::mutex mutex_;
  std::map<int, Entry> cache_;
  long uses_ = 0;
};

}  // namespace versolay::rehearse
