// The annotated pictures of `measure --overlay`.
#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <vector>

#include "overlay/overlay.h"

namespace versolay {

/// Pictures are kept small in memory until it is known what became of each sheet.
class ScanOverlays {
 public:
  /// @param files  one for each scan, the same several times for its pages.
  /// Makes the folder. Throws Error when that fails, or when a picture exists and `replace` is
  /// false.
  ScanOverlays(std::filesystem::path folder, const std::vector<std::filesystem::path>& files,
               bool replace);

  /// Scans of different numbers may be kept from several threads at the same time.
  void keep(std::size_t number, const Scan& scan, const Result<SideReading>& reading);

  /// Writes all pictures. @param verdict_of  nullptr: nothing is known of that side's sheet.
  void write(const std::function<const SheetVerdict*(const SideReading&)>& verdict_of) const;

 private:
  struct Kept {
    ScanThumbnail picture;
    Result<SideReading> reading;
  };
  std::vector<std::filesystem::path> paths_;
  std::vector<std::optional<Kept>> kept_;
  bool replace_;
};

}  // namespace versolay
