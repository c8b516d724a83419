#include "app/scan_overlays.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <set>

#include "artwork/raster.h"
#include "core/files.h"
#include "core/translation.h"

namespace versolay {
namespace {

/// "scan3.overlay.png", "pages.p2.overlay.png"; a number keeps files of one name apart, whatever
/// order they come in.
std::vector<std::string> names_for(const std::vector<std::filesystem::path>& files) {
  std::map<std::string, std::set<std::filesystem::path>> of_stem;
  for (const std::filesystem::path& file : files) of_stem[file.stem().string()].insert(file);
  std::map<std::filesystem::path, int> pages;
  std::vector<std::string> names;
  for (const std::filesystem::path& file : files) {
    std::string name = file.stem().string();
    const auto& sharing = of_stem[name];
    const auto own = std::distance(sharing.begin(), sharing.find(file));
    if (own > 0) name += "-" + std::to_string(own + 1);
    if (std::count(files.begin(), files.end(), file) > 1) {
      name += ".p" + std::to_string(++pages[file]);
    }
    names.push_back(name + ".overlay.png");
  }
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
