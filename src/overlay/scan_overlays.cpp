#include "overlay/scan_overlays.h"

#include <algorithm>
#include <map>
#include <set>

#include "artwork/raster.h"
#include "core/files.h"
#include "words/translation.h"

namespace versolay {
namespace {

std::vector<std::string> names_of_pages(const std::string& base, int pages) {
  if (pages == 1) return {base + ".overlay.png"};
  std::vector<std::string> names;
  for (int page = 1; page <= pages; ++page) {
    names.push_back(base + ".p" + std::to_string(page) + ".overlay.png");
  }
  return names;
}

/// "scan3.overlay.png", "pages.p2.overlay.png"; a number keeps files of one name apart, whatever
/// order they come in.
std::vector<std::string> names_for(const std::vector<std::filesystem::path>& files) {
  std::map<std::filesystem::path, int> pages;
  for (const std::filesystem::path& file : files) ++pages[file];
  std::set<std::string> taken;
  std::map<std::filesystem::path, std::vector<std::string>> names_of;
  for (const auto& [file, count] : pages) {
    const std::string stem = file.stem().string();
    std::vector<std::string> names = names_of_pages(stem, count);
    const auto is_taken = [&](const std::string& name) { return taken.contains(name); };
    for (int i = 2; std::any_of(names.begin(), names.end(), is_taken); ++i) {
      names = names_of_pages(stem + "-" + std::to_string(i), count);
    }
    taken.insert(names.begin(), names.end());
    names_of[file] = std::move(names);
  }
  std::map<std::filesystem::path, std::size_t> next;
  std::vector<std::string> names;
  for (const std::filesystem::path& file : files) names.push_back(names_of[file][next[file]++]);
  return names;
}

std::string png_of(const OverlayPicture& picture) {
  Raster raster;
  raster.width_px = picture.width_px;
  raster.height_px = picture.height_px;
  raster.samples.assign(picture.rgb.begin(), picture.rgb.end());
  return encode_png(raster);
}

}  // namespace

ScanOverlays::ScanOverlays(std::filesystem::path folder,
                           const std::vector<std::filesystem::path>& files, bool replace)
    : kept_(files.size()), replace_(replace) {
  make_folder(folder);
  for (const std::string& name : names_for(files)) {
    paths_.push_back(folder / name);
    check_output(paths_.back(), replace);
  }
}

void ScanOverlays::keep(std::size_t number, const Scan& scan, const Result<SideReading>& reading) {
  kept_[number] = Kept{thumbnail_of(scan, reading), reading};
}

void ScanOverlays::write(
    const std::function<const SheetVerdict*(const SideReading&)>& verdict_of) const {
  for (std::size_t i = 0; i < kept_.size(); ++i) {
    if (!kept_[i]) continue;
    const Kept& kept = *kept_[i];
    const SheetVerdict* const verdict = kept.reading ? verdict_of(kept.reading.value()) : nullptr;
    write_file_atomically(paths_[i], png_of(draw_overlay(kept.picture, kept.reading, verdict)),
                          replace_);
  }
}

}  // namespace versolay
